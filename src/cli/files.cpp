#include "files.hpp"

#include "base/json_reader.hpp"
#include "underprop/base/input_error.hpp"

#include <filesystem>
#include <fstream>
#include <system_error>

namespace underprop::cli {

namespace fs = std::filesystem;

std::string read_file(const std::string& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (error || !fs::exists(status)) {
    throw FileError(
        path + ": there is no such file, or it may not be read; check the name and the folder");
  }
  if (fs::is_directory(status)) {
    throw FileError(path + ": this is a folder; name the survey file in it, such as survey.json");
  }
  std::ifstream file(path, std::ios::binary);
  if (!file) throw FileError(path + ": cannot be opened; check who may read it");
  // Pipes have no size: read at most one byte more than is allowed.
  std::string text(max_json_bytes + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad()) throw FileError(path + ": reading failed");
  text.resize(static_cast<std::size_t>(file.gcount()));
  if (text.size() > max_json_bytes) {
    throw InputErrors(path, {{"", "the file is larger than 4 MiB", "a survey of at most 4 MiB",
                              "check that this is a survey file; a real one is a few kilobytes"}});
  }
  return text;
}

void write_file(const std::string& path, const std::string& text) {
  const fs::path target(path);
  std::error_code error;
  if (fs::is_directory(target, error))
    throw FileError(path + ": this is a folder; name a file to write");
  if (fs::exists(target, error) && !fs::is_regular_file(target, error)) {
    // A device or pipe: there is nothing to move into place.
    std::ofstream out(path, std::ios::binary);
    out << text;
    out.flush();
    if (!out) throw FileError(path + ": cannot be written");
    return;
  }
  fs::path part = target;
  part += ".part";
  {
    std::ofstream out(part, std::ios::binary | std::ios::trunc);
    if (out) out << text;
    out.flush();
    if (!out) {
      fs::remove(part, error);
      throw FileError(
          path + ": cannot be written; check that the folder is there and who may write to it");
    }
  }
  fs::rename(part, target, error);
  if (error) {
    std::error_code ignored;
    fs::remove(part, ignored);
    throw FileError(path + ": cannot be written: " + error.message());
  }
}

}  // namespace underprop::cli
