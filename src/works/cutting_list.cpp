#include "parts.hpp"

#include "works/rules.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace underprop::works {
namespace {

class List {
public:
  explicit List(const record::Survey& survey) : survey_(survey), pieces_(survey) {}

  void add(const Work& work) {
    switch (work.measure) {
      case Measure::pad:
        posts(work);
        return;
      case Measure::sleeper:
      case Measure::bearer_on_pads:
        for (const Interval& run : runs(work, survey_.standard)) {
          const char* use = work.measure == Measure::sleeper ? "sleeper" : "bearer";
          cut(work, work.breadth, work.depth, run.high - run.low, work.plies, use);
        }
        posts(work);
        return;
      case Measure::sister:
        for (const std::string& name : work.pieces) {
          const deck::Joist& joist = pieces_.joist(name);
          cut(work, work.breadth, work.depth, joist.to - joist.from, 1, "sister");
        }
        return;
      case Measure::added_joist:
        cut(work, work.breadth, work.depth, work.to - work.from, 1, "joist");
        return;
      case Measure::blocking:
        blocks(work);
        return;
      case Measure::brace:
        braces(work);
        return;
      case Measure::pack:
      case Measure::move_load:
      case Measure::hangers:
      case Measure::bigger_pad:
      case Measure::ledger_bolts:
        return;
    }
  }

  [[nodiscard]] std::vector<Cut> sorted() && {
    const auto order = [](const Cut& c) {
      return std::tuple(-c.breadth.value() * c.depth.value(), c.section, -c.length.value(), c.use);
    };
    std::sort(cuts_.begin(), cuts_.end(),
              [&](const Cut& a, const Cut& b) { return order(a) < order(b); });
    std::vector<Cut> merged;
    for (Cut& cut : cuts_) {
      const bool same = !merged.empty() && merged.back().section == cut.section &&
                        merged.back().length == cut.length && merged.back().use == cut.use;
      if (same) {
        merged.back().count += cut.count;
      } else {
        merged.push_back(std::move(cut));
      }
    }
    return merged;
  }

private:
  void cut(const Work& work, Length breadth, Length depth, Length length, int count,
           const char* use) {
    if (!(length > Length()) || !(breadth > Length()) || !(depth > Length())) {
      fault(work, "a piece of timber without a size");
    }
    const std::string section = section_name(survey_.standard, breadth, depth);
    const std::string name = work.timber.empty() ? section : section + " " + work.timber;
    cuts_.push_back(
        {name, breadth, depth, mm(std::ceil(length.value() - 1e-6)), work.timber, count, use});
  }

  void posts(const Work& work) {
    if (!(work.post_height > Length())) return;
    cut(work, mm(building_value(survey_.standard, "post/breadth_mm")),
        mm(building_value(survey_.standard, "post/depth_mm")), work.post_height,
        static_cast<int>(work.places.size()), "post");
  }

  // One block between each two neighbours of the group that both pass the row.
  void blocks(const Work& work) {
    std::set<std::string> groups;
    for (const std::string& name : work.pieces) {
      groups.insert(pieces_.group_of(*pieces_.joists(name).front()));
    }
    for (const std::string& group : groups) {
      std::vector<const deck::Joist*> row;
      for (const deck::Joist* joist : pieces_.joists(group)) {
        if (joist->from <= work.position && work.position <= joist->to) row.push_back(joist);
      }
      std::stable_sort(row.begin(), row.end(), [](const deck::Joist* a, const deck::Joist* b) {
        return a->position < b->position;
      });
      for (std::size_t i = 1; i < row.size(); ++i) {
        const Length clear =
            row[i]->position - row[i - 1]->position - 0.5 * (row[i]->breadth + row[i - 1]->breadth);
        if (!(clear > Length())) continue;
        const bool stated = work.breadth > Length() && work.depth > Length();
        cut(work, stated ? work.breadth : row[i]->breadth, stated ? work.depth : row[i]->depth,
            clear, 1, "block");
      }
    }
  }

  // A diagonal over its run in plan, or at 45 degrees over the height of the deck.
  void braces(const Work& work) {
    const Length rise = pieces_.deck().height;
    const Length run = work.to > work.from ? work.to - work.from : rise;
    const int count = std::max(1, static_cast<int>(work.places.size()));
    cut(work, work.breadth, work.depth, mm(std::hypot(rise.value(), run.value())), count, "brace");
  }

  const record::Survey& survey_;
  Pieces pieces_;
  std::vector<Cut> cuts_;
};

}  // namespace

std::vector<Cut> cutting_list(const std::vector<Work>& works, const record::Survey& survey) {
  List list(survey);
  for (const Work& work : works) list.add(work);
  return std::move(list).sorted();
}

}  // namespace underprop::works
