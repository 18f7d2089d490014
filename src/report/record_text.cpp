#include "underprop/report/record_text.hpp"

#include "layout.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace underprop::report {

std::string question_text(const interview::Question& question, Shown shown, int width) {
  Page page(width);
  if (shown == Shown::with_chapter) {
    const std::string name = "-- " + question.chapter + " ";
    const std::size_t dashes = page.width() > columns(name) ? page.width() - columns(name) : 0;
    page.line(name + std::string(dashes, '-'));
    page.blank();
  }
  page.paragraph(fmt::format("{}. {}", question.answered + 1, question.ask));
  if (shown != Shown::again) {
    page.labelled("Why", question.why);
    page.labelled("How", question.how);
  }
  const bool explained = shown != Shown::again &&
                         std::any_of(question.meanings.begin(), question.meanings.end(),
                                     [](const std::string& meaning) { return !meaning.empty(); });
  if (explained) {
    for (std::size_t i = 0; i < question.choices.size(); ++i) {
      const std::string& meaning = question.meanings.at(i);
      page.labelled(i == 0 ? "One of" : "", fmt::format("{} {}{}{}", i + 1, question.choices[i],
                                                        meaning.empty() ? "" : ": ", meaning));
    }
  } else if (!question.choices.empty()) {
    std::string words;
    for (std::size_t i = 0; i < question.choices.size(); ++i) {
      words += fmt::format("{}{} {}", i == 0 ? "" : ", ", i + 1, question.choices[i]);
    }
    page.labelled("One of", words);
  }
  if (shown != Shown::again) page.labelled("Answer", question.form);
  if (!question.earlier.empty()) page.labelled("Before", question.earlier + " (same: keep it)");
  return page.text();
}

std::string reply_text(const std::string& text, int width) {
  Page page(width);
  std::size_t start = 0;
  while (start <= text.size() && !text.empty()) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::string line = text.substr(start, end - start);
    if (columns(line) <= page.width()) {
      page.line(line);
    } else {
      page.paragraph(line);
    }
    start = end + 1;
  }
  return page.text();
}

}  // namespace underprop::report
