#include "sources.hpp"

#include "catalog/embedded.hpp"

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace underprop::report {

namespace {

std::string text_of(const nlohmann::json& entry, const char* key) {
  const auto found = entry.find(key);
  if (found == entry.end()) return "";
  return found->is_string() ? found->get<std::string>() : found->dump();
}

}  // namespace

std::map<std::string, Source> bibliography() {
  std::map<std::string, Source> sources;
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (!file.path.starts_with("sources/") && file.path != "sources.json") continue;
    const auto document = nlohmann::json::parse(file.text);
    if (!document.is_object()) {
      throw std::runtime_error("data/" + std::string(file.path) + " is not an object");
    }
    for (const auto& [key, entry] : document.items()) {
      if (!entry.is_object()) continue;
      sources[key] = {text_of(entry, "title"), text_of(entry, "publisher"),
                      text_of(entry, "edition"), text_of(entry, "note")};
    }
  }
  return sources;
}

std::string full_title(const std::map<std::string, Source>& sources, const std::string& key) {
  const auto found = sources.find(key);
  if (found == sources.end() || found->second.title.empty()) return key;
  const Source& source = found->second;
  std::string beside = source.publisher;
  if (!source.edition.empty()) beside += (beside.empty() ? "" : ", ") + source.edition;
  return beside.empty() ? source.title : source.title + " (" + beside + ")";
}

void add_keys(const assessment::Finding& finding, std::set<std::string>& keys) {
  if (!finding.check.source.key.empty()) keys.insert(finding.check.source.key);
  for (const standards::Step& step : finding.check.steps) {
    if (!step.source.key.empty()) keys.insert(step.source.key);
  }
}

}  // namespace underprop::report
