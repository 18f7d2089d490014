#include "costing/quantities.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>
#include <stdexcept>

namespace underprop::costing {
namespace {

// Rounding noise must not buy another bag.
constexpr double noise = 1e-9;

void require(bool holds, const char* what) {
  if (!holds) throw std::invalid_argument(what);
}

bool sensible(double x) { return std::isfinite(x) && x >= 0.0; }

// The shortest stock for a length, or 0 if none is long enough.
Length shortest(const std::vector<Length>& stock, Length length) {
  for (const Length s : stock) {
    if (length.value() <= s.value() + noise) return s;
  }
  return Length();
}

// pieces descending, none longer than the longest stock, at most eight: the cheapest partition.
std::vector<StockBar> least_bought(const std::vector<Length>& pieces,
                                   const std::vector<Length>& stock, Length kerf) {
  const auto n = static_cast<unsigned>(pieces.size());
  const std::size_t all = (std::size_t{1} << n) - 1;
  std::vector<Length> bar(all + 1), best(all + 1);
  std::vector<std::size_t> taken(all + 1, 0);
  for (std::size_t set = 1; set <= all; ++set) {
    Length sum = -kerf;
    for (unsigned i = 0; i < n; ++i) {
      if ((set >> i & 1U) != 0) sum += pieces[i] + kerf;
    }
    bar[set] = shortest(stock, sum);
    best[set] = Length(std::numeric_limits<double>::infinity());
    // Every part of the set that holds its longest piece.
    const std::size_t first = set & (~set + 1);
    for (std::size_t part = set; part > 0; part = (part - 1) & set) {
      if ((part & first) == 0 || !(bar[part] > Length())) continue;
      const Length length = bar[part] + best[set & ~part];
      if (length < best[set]) {
        best[set] = length;
        taken[set] = part;
      }
    }
  }
  std::vector<StockBar> bars;
  for (std::size_t left = all; left != 0; left &= ~taken[left]) {
    StockBar next{bar[taken[left]], {}, false};
    for (unsigned i = 0; i < n; ++i) {
      if ((taken[left] >> i & 1U) != 0) next.pieces.push_back(pieces[i]);
    }
    bars.push_back(std::move(next));
  }
  return bars;
}

std::vector<StockBar> first_fit(const std::vector<Length>& pieces, const std::vector<Length>& stock,
                                Length kerf) {
  std::vector<StockBar> bars;
  std::vector<Length> filled;
  for (const Length piece : pieces) {
    std::size_t b = 0;
    while (b < bars.size() && (filled[b] + kerf + piece).value() > stock.back().value() + noise)
      ++b;
    if (b == bars.size()) {
      bars.push_back({stock.back(), {}, false});
      filled.push_back(-kerf);
    }
    bars[b].pieces.push_back(piece);
    filled[b] += kerf + piece;
  }
  for (std::size_t b = 0; b < bars.size(); ++b) bars[b].stock = shortest(stock, filled[b]);
  return bars;
}

}  // namespace

int bags_for(Volume concrete, Volume per_bag, double waste) {
  require(sensible(concrete.value()) && sensible(waste) && std::isfinite(per_bag.value()) &&
              per_bag > Volume(),
          "bags: a volume or the waste makes no sense");
  return static_cast<int>(std::ceil((1.0 + waste) * (concrete / per_bag) - noise));
}

int packs_for(int count, int per_pack) {
  require(count >= 0 && per_pack > 0, "packs: a count makes no sense");
  return (count + per_pack - 1) / per_pack;
}

Volume ready_mix_for(Volume concrete, double waste, Volume step, Volume least) {
  require(sensible(concrete.value()) && sensible(waste) && step > Volume(),
          "ready-mix: a volume or the waste makes no sense");
  if (!(concrete > Volume())) return Volume();
  const double steps = std::ceil((1.0 + waste) * (concrete / step) - noise);
  return max(least, steps * step);
}

CuttingPlan cutting_plan(std::vector<Length> pieces, const std::vector<Length>& stock,
                         Length kerf) {
  require(!stock.empty() && std::is_sorted(stock.begin(), stock.end()) &&
              stock.front() > Length() && sensible(kerf.value()),
          "cutting: the stock lengths or the kerf make no sense");
  for (const Length piece : pieces) {
    require(std::isfinite(piece.value()) && piece > Length(), "cutting: a piece without a length");
  }
  std::sort(pieces.begin(), pieces.end(), std::greater<>());
  CuttingPlan plan;
  std::vector<Length> usual;
  for (const Length piece : pieces) {
    if (shortest(stock, piece) > Length()) {
      usual.push_back(piece);
    } else {
      plan.bars.push_back({piece, {piece}, true});
    }
  }
  constexpr std::size_t most_exact = 8;
  const std::vector<StockBar> bars = usual.empty()                ? std::vector<StockBar>{}
                                     : usual.size() <= most_exact ? least_bought(usual, stock, kerf)
                                                                  : first_fit(usual, stock, kerf);
  plan.bars.insert(plan.bars.end(), bars.begin(), bars.end());
  for (const StockBar& bar : plan.bars) plan.bought += bar.stock;
  for (const Length piece : pieces) plan.used += piece;
  return plan;
}

int mesh_sheets(Length width, Length length, Length cover, Length sheet_long, Length sheet_short,
                Length lap) {
  require(sheet_short > lap && sheet_long > lap && lap >= Length(),
          "mesh: a sheet must be larger than the lap");
  const auto along = [&](Length side, Length sheet) {
    const Length net = side - 2.0 * cover;
    if (net <= sheet) return 1;
    return static_cast<int>(std::ceil((net - lap) / (sheet - lap) - noise));
  };
  return std::min(along(width, sheet_long) * along(length, sheet_short),
                  along(width, sheet_short) * along(length, sheet_long));
}

int bar_lines(Length width, Length cover, Length spacing) {
  require(spacing > Length(), "bars: a spacing must be positive");
  const Length net = max(width - 2.0 * cover, Length());
  return static_cast<int>(std::ceil(net / spacing - noise)) + 1;
}

}  // namespace underprop::costing
