#include "recorded.hpp"

#include "catch.hpp"
#include "json_difference.hpp"
#include "paths.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <utility>

namespace underprop::test {
namespace {

namespace fs = std::filesystem;

fs::path place(const std::string& file) { return fs::path(source_dir) / file; }

/// Whether words are written anew rather than compared: tests/accept.sh sets this.
bool accepting() { return std::getenv("UNDERPROP_ACCEPT") != nullptr; }

const char* const how_to_accept =
    "If it is right:  sh tests/accept.sh  writes it anew; then read  git diff.";

void write(const std::string& file, const std::string& text) {
  if (fs::exists(place(file)) && text_of(place(file)) == text) return;
  fs::create_directories(place(file).parent_path());
  std::ofstream out(place(file), std::ios::binary);
  out << text;
  out.close();
  REQUIRE(out.good());
}

void compare(const std::string& where, const std::string& recorded, const std::string& now) {
  if (recorded == now) return;
  FAIL_CHECK("what comes out is not what is recorded in " << where << " (-: recorded, +: now)\n"
                                                          << line_difference(recorded, now)
                                                          << how_to_accept);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  if (!text.empty() && !text.ends_with('\n')) lines.back() += "  (no line end)";
  return lines;
}

/// Which lines of `a` and `b` stand in a longest common subsequence, as pairs of places.
std::vector<std::pair<std::size_t, std::size_t>> common(const std::vector<std::string>& a,
                                                        const std::vector<std::string>& b) {
  std::size_t head = 0;
  while (head < std::min(a.size(), b.size()) && a[head] == b[head]) ++head;
  std::size_t tail = 0;
  while (tail < std::min(a.size(), b.size()) - head &&
         a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
    ++tail;
  }
  const std::size_t n = a.size() - head - tail, m = b.size() - head - tail;
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0; i < head; ++i) pairs.emplace_back(i, i);
  constexpr std::size_t most_cells = 25'000'000;  // beyond it the middle counts as all different
  if (n * m <= most_cells) {
    // length[i][j]: of the longest common subsequence of the middles from i and j on.
    std::vector<std::vector<unsigned>> length(n + 1, std::vector<unsigned>(m + 1, 0));
    for (std::size_t i = n; i-- > 0;) {
      for (std::size_t j = m; j-- > 0;) {
        length[i][j] = a[head + i] == b[head + j] ? length[i + 1][j + 1] + 1
                                                  : std::max(length[i + 1][j], length[i][j + 1]);
      }
    }
    for (std::size_t i = 0, j = 0; i < n && j < m;) {
      if (a[head + i] == b[head + j]) {
        pairs.emplace_back(head + i++, head + j++);
      } else if (length[i + 1][j] >= length[i][j + 1]) {
        ++i;
      } else {
        ++j;
      }
    }
  }
  for (std::size_t i = tail; i > 0; --i) pairs.emplace_back(a.size() - i, b.size() - i);
  return pairs;
}

struct Sections {
  std::vector<std::string> outside;  ///< one more than `inside`
  std::vector<std::string> inside;
};

Sections sections(const std::string& file) {
  const std::string text = text_of(place(file));
  Sections result;
  std::size_t at = 0;
  for (std::size_t begin = text.find(section_begin); begin != std::string::npos;
       begin = text.find(section_begin, at)) {
    begin += std::string(section_begin).size();
    const std::size_t end = text.find(section_end, begin);
    INFO(file << ": a section that is not closed");
    REQUIRE(end != std::string::npos);
    result.outside.push_back(text.substr(at, begin - at));
    result.inside.push_back(text.substr(begin, end - begin));
    at = end;
  }
  result.outside.push_back(text.substr(at));
  return result;
}

const std::string prompt = "$ underprop ";

std::vector<std::string> commands_in(const std::string& text) {
  std::vector<std::string> commands;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with(prompt)) commands.push_back(line.substr(2));
  }
  return commands;
}

}  // namespace

void check_recorded(const std::string& file, const std::string& text) {
  if (accepting()) return write(file, text);
  compare(file, text_of(place(file)), text);
}

void check_recorded_numbers(const std::string& file, const nlohmann::ordered_json& now) {
  const nlohmann::json before = nlohmann::json::parse(text_of(place(file)), nullptr, false);
  const std::vector<std::string> different =
      before.is_discarded()
          ? std::vector<std::string>{"/: is no JSON yet"}
          : json_differences(before, nlohmann::json::parse(now.dump()), {1e-6, 1e-12});
  // Digits beyond the tolerance are no reason to write it anew.
  if (different.empty()) return;
  const std::string text = now.dump(2) + "\n";
  if (accepting()) return write(file, text);
  std::string all;
  for (const std::string& each : different) all += each + "\n";
  FAIL_CHECK("what comes out is not what is recorded in " << file << "\n" << all << how_to_accept);
}

void check_passage(const std::string& file, const std::string& title, const std::string& text) {
  static std::map<std::string, std::string> anew;  // what is written so far, by file
  const std::string head = "== " + title + "\n";
  INFO(file << ": " << title);
  REQUIRE(title.find('\n') == std::string::npos);
  REQUIRE(("\n" + text).find("\n== ") == std::string::npos);
  REQUIRE((text.empty() || text.ends_with('\n')));
  if (accepting()) {
    std::string& all = anew[file];
    REQUIRE(("\n" + all).find("\n" + head) == std::string::npos);  // every title once
    all += (all.empty() ? "" : "\n") + head + text;
    return write(file, all);
  }
  const std::string all = "\n" + text_of(place(file));
  const std::size_t begin = all.find("\n" + head);
  std::string recorded;
  if (begin != std::string::npos) {
    const std::size_t start = begin + 1 + head.size();
    const std::size_t end = all.find("\n== ", start - 1);
    // A blank line parts two passages.
    recorded = end == std::string::npos ? all.substr(start) : all.substr(start, end - start);
  }
  compare(file + " under \"" + title + "\"", recorded, text);
}

const Ran& shown(const std::string& command) {
  static std::map<std::string, Ran> known;  // several files show the same command
  const auto before = known.find(command);
  if (before != known.end()) return before->second;
  INFO(command);
  REQUIRE(command.starts_with(prompt.substr(2)));
  const Ran ran = shell("cd \"" + std::string(source_dir) + "\" && PATH=\"" +
                        fs::path(program).parent_path().string() + ":$PATH\" && (" + command +
                        ") </dev/null 2>/dev/null");
  INFO(ran.out);
  REQUIRE(ran.code != 70);  // a fault of the program
  REQUIRE(ran.code < 127);  // no such command, or ended by a signal
  return known.emplace(command, ran).first->second;
}

int check_sections(const std::string& file) {
  const Sections found = sections(file);
  std::string now;
  for (std::size_t i = 0; i < found.inside.size(); ++i) {
    const std::vector<std::string> commands = commands_in(found.inside[i]);
    INFO(file << ": a section without a command");
    REQUIRE_FALSE(commands.empty());
    now += found.outside[i];
    for (const std::string& command : commands) now += "$ " + command + "\n" + shown(command).out;
  }
  now += found.outside.back();
  for (const std::string& text : found.outside) {
    for (const std::string& command : commands_in(text))
      FAIL_CHECK(file << ": outside a marked section, where no test reads it: " << command);
  }
  check_recorded(file, now);
  return static_cast<int>(found.inside.size());
}

std::string terminal_text(const std::vector<std::string>& commands) {
  std::string text;
  for (const std::string& command : commands) {
    const Ran& ran = shown(command);
    text += (text.empty() ? "$ " : "\n$ ") + command + "\n" + ran.out + "(exit code " +
            std::to_string(ran.code) + ")\n";
  }
  return text;
}

std::string line_difference(const std::string& recorded, const std::string& now) {
  if (recorded == now) return {};
  const std::vector<std::string> a = lines_of(recorded), b = lines_of(now);
  struct Line {
    char sign;
    std::string text;
  };
  std::vector<Line> lines;
  std::size_t i = 0, j = 0;
  auto pairs = common(a, b);
  pairs.emplace_back(a.size(), b.size());
  for (const auto& [to_i, to_j] : pairs) {
    while (i < to_i) lines.push_back({'-', a[i++]});
    while (j < to_j) lines.push_back({'+', b[j++]});
    if (i < a.size() && j < b.size()) lines.push_back({' ', a[i]});
    ++i;
    ++j;
  }
  constexpr std::size_t around = 2, most = 200;
  std::vector<bool> shown(lines.size(), false);
  for (std::size_t at = 0; at < lines.size(); ++at) {
    if (lines[at].sign == ' ') continue;
    for (std::size_t near = at < around ? 0 : at - around;
         near <= std::min(at + around, lines.size() - 1); ++near) {
      shown[near] = true;
    }
  }
  std::string text;
  std::size_t count = 0;
  for (std::size_t at = 0; at < lines.size(); ++at) {
    if (!shown[at]) {
      if (at > 0 && shown[at - 1]) text += "  ...\n";
      continue;
    }
    if (++count > most) return text + "  ... and more\n";
    text += std::string(1, lines[at].sign) + " " + lines[at].text + "\n";
  }
  return text;
}

}  // namespace underprop::test
