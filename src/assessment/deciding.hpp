// What is open, how far it can move the verdict, and which few acts on site decide it.
#pragma once

#include "readings.hpp"

#include <string>
#include <vector>

namespace underprop::assessment {

/// How many acts a person can be asked for at once; more are too little recorded.
inline constexpr std::size_t most_acts = 3;

/// Not for more than one thread at a time.
class Deciding {
public:
  /// `readings` must outlive this.
  explicit Deciding(Readings& readings) : readings_(readings) {}

  /// Into `unknowns`: the open facts, those first that alone take away a reason to refer, then by how far
  /// each alone moves the governing utilisation. `now`: that at cautious facts; infinity: loose.
  void rank(Assessment& a, double now);
  /// The acts that settle what must be seen and is not recorded.
  [[nodiscard]] static std::set<record::Act> missing_acts(const Assessment& a);
  /// The smallest sets of acts, three at the most, after which it carries if they turn out well, with the
  /// facts that count in them and what they must be. False: no so small set.
  bool find(Assessment& a);
  /// With the rest likely, one or two acts that turn out well would make every safety check pass.
  [[nodiscard]] bool one_or_two_would_do();

private:
  [[nodiscard]] Override settled(const std::set<record::Act>& acts) const;
  [[nodiscard]] Decides narrowed(const Assessment& a, const std::set<record::Act>& acts);
  /// Leaves out what need not turn out well.
  void leave_out(Override& found, const std::vector<std::string>& some);

  Readings& readings_;
  std::vector<record::Act> acts_;    ///< of open facts, that which moves most first
  std::vector<std::string> ranked_;  ///< fields, that which moves most first
};

}  // namespace underprop::assessment
