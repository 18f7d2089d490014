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

/// The text of one of them. Throws std::logic_error if there is none of that path: a fault of the build.
[[nodiscard]] std::string_view embedded_text(std::string_view path);

/// A short sum over all of them (twelve hexadecimal digits): the same data, the same sum.
[[nodiscard]] std::string_view data_sum();

}  // namespace underprop::catalog
