// Numbers, names and selections that the text, the JSON and the HTML share.
#pragma once

#include "underprop/base/format.hpp"
#include "underprop/record/wording.hpp"
#include "underprop/report/report.hpp"
#include "underprop/report/sentences.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace underprop::report {

/// Metric for the Eurocode, US customary for the North American standard.
[[nodiscard]] UnitSystem units_of(const record::Survey& survey);

/// A number of a line of arithmetic: four significant digits, whole digits kept below ten million.
/// Never throws: "no number" for NaN.
[[nodiscard]] std::string figure(double value);
/// figure and unit: "12.4 MPa".
[[nodiscard]] std::string figure(double value, std::string_view unit);
/// As format_utilisation; "no number" for NaN.
[[nodiscard]] std::string shown_utilisation(double utilisation);
/// Whole units of the currency: "1240 GBP".
[[nodiscard]] std::string money(double amount, const std::string& currency);

/// The verdict in capitals, for headings.
[[nodiscard]] std::string heading(assessment::Verdict verdict);
/// "new pad", "second joist alongside" ...
[[nodiscard]] const char* to_words(works::Measure measure);
/// The parts that are not empty.
[[nodiscard]] std::string joined(const std::vector<std::string>& parts, std::string_view between);
/// "en1995-1-1, 6.1.6(1)", one of both, or empty.
[[nodiscard]] std::string reference(const Citation& source);

/// Safety findings (of the reading shown) and service findings (likely facts), the one that the verdict
/// names first, then the worst; equal ones by id.
[[nodiscard]] std::vector<const assessment::Finding*> findings_of(
    const assessment::Assessment& assessment);
/// Which reading of the open facts the figures stand for; empty: cautious, or none is open.
[[nodiscard]] std::string reading_words(const assessment::Assessment& assessment);
/// The same check with every open fact at its best; "-": not made there.
[[nodiscard]] std::string shown_at_best(const assessment::Assessment& assessment,
                                        const assessment::Finding& finding);
/// The worst service finding, or nullptr.
[[nodiscard]] const assessment::Finding* worst_service(const assessment::Assessment& assessment);
/// The finding with that id, ordinary use included; nullptr if there is none.
[[nodiscard]] const assessment::Finding* find(const assessment::Assessment& assessment,
                                              std::string_view id);

/// Must-see facts that are not recorded.
[[nodiscard]] std::vector<const assessment::MustSee*> not_recorded(
    const assessment::Assessment& assessment);

/// What is outside the program, one entry each.
[[nodiscard]] std::vector<std::string> not_checked();
/// A question about the guard where a tub stands within 1 m of an edge; else empty.
[[nodiscard]] std::string guard_question(const deck::Deck& deck, UnitSystem units);

[[nodiscard]] bool is_among(const std::vector<record::Warning>& some,
                            const record::Warning& warning);

/// The survey's file as one word of a command line, in quotes where it needs them; "SURVEY" if not known.
[[nodiscard]] std::string survey_argument(const Report& report);
/// "underprop report deck.json -o deck.html"
[[nodiscard]] std::string report_command(const Report& report);

/// What is to be said of an option.
[[nodiscard]] std::vector<std::string> notes_of(const comparison::Option& option);
/// What is known of how good a plan is: "the cheapest that passes these checks ...".
[[nodiscard]] std::string optimality(const planner::Result& result);

}  // namespace underprop::report
