// The files of data/, embedded in the program at build time.
#pragma once

#include <span>
#include <string_view>

namespace underprop::catalog {

struct EmbeddedFile {
  std::string_view path;  ///< relative to data/, with forward slashes: "sources/common.json"
  std::string_view text;  ///< the whole file, unchanged
};

/// Every data/**/*.json, sorted by path (byte order). The text lives as long as the program.
[[nodiscard]] std::span<const EmbeddedFile> embedded_files();

}  // namespace underprop::catalog
