// The bibliography of data/sources/: what a source key stands for.
#pragma once

#include "underprop/report/report.hpp"

#include <map>
#include <set>
#include <string>

namespace underprop::report {

struct Source {
  std::string title, publisher, edition, note;
};

/// Every entry of data/sources/*.json by key.
[[nodiscard]] std::map<std::string, Source> bibliography();
/// "EN 1995-1-1 Design of timber structures ... (BSI, 2004)"; the key itself if it is not there.
[[nodiscard]] std::string full_title(const std::map<std::string, Source>& sources,
                                     const std::string& key);
/// Keys that a finding and its steps cite.
void add_keys(const assessment::Finding& finding, std::set<std::string>& keys);

}  // namespace underprop::report
