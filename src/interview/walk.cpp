#include "parts.hpp"

#include "underprop/base/units.hpp"

#include <algorithm>
#include <stdexcept>

namespace underprop::interview {

Walk::Walk(const std::vector<record::Answer>& answers) {
  // The first of two answers to one question counts, should a file hold two.
  for (const record::Answer& answer : answers) answers_.emplace(answer.question, answer);
}

Meaning Walk::ask(Ask ask) {
  Meaning nothing;
  nothing.empty = true;
  if (!going()) return nothing;
  if (!ask.form) ask.form = Form::text;
  for (const auto& [name, text] : fill) ask.fill.emplace(name, text);
  const auto found = answers_.find(ask.id);
  if (found == answers_.end() || found->second.reopened) {
    pending_ = std::move(ask);
    return nothing;
  }
  Meaning taken = take(ask, found->second.said, standard_);
  if (!taken.understood) {  // an earlier answer has made this one impossible: it is asked again
    pending_ = std::move(ask);
    return nothing;
  }
  current_ = ask.id;
  asked_.push_back({std::move(ask), found->second.said, taken.empty});
  return taken;
}

void Walk::put(const std::string& pointer, OrderedJson value) {
  if (!going()) return;
  survey_[OrderedJson::json_pointer(pointer)] = std::move(value);
  owners_[pointer] = current_;
}

void Walk::take_back(const std::string& pointer) {
  if (!going()) return;
  const OrderedJson::json_pointer at(pointer);
  OrderedJson& list = survey_.at(at.parent_pointer());
  list.erase(list.size() - 1);
  if (list.empty())
    survey_.at(at.parent_pointer().parent_pointer()).erase(at.parent_pointer().back());
  std::erase_if(owners_, [&](const auto& entry) {
    return entry.first == pointer || entry.first.starts_with(pointer + "/");
  });
}

Meaning Walk::ask_into(const std::string& pointer, Ask ask) {
  const record::Field* field = record::survey_field_at(pointer);
  if (field == nullptr) throw std::logic_error("the format has no field at " + pointer);
  follow_declaration(ask, *field);
  Meaning meaning = this->ask(std::move(ask));
  if (meaning.empty || !meaning.understood) {
    if (!meaning.text.empty()) put(pointer, meaning.text);  // anything that the table allows
  } else if (field->kind == record::ValueKind::flag) {
    put(pointer, meaning.text == "yes");
  } else if (field->kind == record::ValueKind::whole &&
             meaning.text.find(' ') == std::string::npos) {
    put(pointer, meaning.count);
  } else if (!meaning.text.empty()) {
    put(pointer, meaning.text);
  }
  return meaning;
}

Meaning Walk::ask_section_into(const std::string& object, const char* breadth, const char* depth,
                               Ask ask) {
  ask.form = Form::section;
  const Meaning taken = this->ask(std::move(ask));
  if (taken.length.is_unknown() || taken.second.is_unknown()) return taken;
  put(object + "/" + breadth, write_fact(taken.length));
  put(object + "/" + depth, write_fact(taken.second));
  return taken;
}

std::string Walk::owner(const std::string& pointer) const {
  const auto exact = owners_.find(pointer);
  if (exact != owners_.end()) return exact->second;
  const auto among = [&](const std::string& start) {
    for (const Asked& asked : asked_) {  // the first asked of those that wrote there
      for (const auto& [at, id] : owners_) {
        if (id == asked.ask.id && at.starts_with(start)) return id;
      }
    }
    return std::string();
  };
  for (std::string at = pointer; !at.empty(); at.resize(at.rfind('/'))) {
    const auto above = owners_.find(at);
    if (above != owners_.end()) return above->second;
    const std::string below = among(at + "/");
    if (!below.empty()) return below;
  }
  return {};
}

Walk walk_through(const std::vector<record::Answer>& answers) {
  Walk walk(answers);
  for (const auto chapter : {ask_place, ask_boards, ask_joists, ask_carriers, ask_fixings,
                             ask_supports, ask_ground, ask_condition, ask_loads, ask_allowed}) {
    if (walk.going()) chapter(walk);
  }
  return walk;
}

}  // namespace underprop::interview
