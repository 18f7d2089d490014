#include "cli/run.hpp"

#include "catalog/embedded.hpp"
#include "catalog/table.hpp"
#include "files.hpp"
#include "record.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/base/units.hpp"
#include "underprop/comparison/comparison.hpp"
#include "underprop/deck/read.hpp"
#include "underprop/interview/interview.hpp"
#include "underprop/planner/planner.hpp"
#include "underprop/record/format.hpp"
#include "underprop/record/standard_facts.hpp"
#include "underprop/record/wording.hpp"
#include "underprop/report/model_export.hpp"
#include "underprop/report/report.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <iostream>
#include <new>
#include <string>

namespace underprop::cli {

namespace {

constexpr int exit_usage = 64;
constexpr int exit_bad_input = 65;
constexpr int exit_internal = 70;
constexpr int exit_file = 74;

struct Options {
  std::string survey, finding, output, prices, table, step;
  bool json = false;
};

/// Wrong usage that only shows once the survey is known: exit code 64.
struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct Job {
  report::Report report;
  std::unique_ptr<standards::Standard> standard;
};

enum class Odd { told_here, told_in_the_text };

/// `odd`: whether the command's own text tells odd entries; else they go to standard error.
Job open(const Options& options, Odd odd = Odd::told_here) {
  Job job;
  deck::ReadResult read = deck::read_survey(read_file(options.survey), options.survey);
  job.report.survey = std::move(read.survey);
  job.report.warnings = std::move(read.warnings);
  job.report.file = options.survey;
  const auto kept = interview::kept_while_recording(job.report.survey, job.report.warnings);
  for (const record::Warning& warning : job.report.warnings) {
    const bool confirmed = std::any_of(kept.begin(), kept.end(), [&](const auto& each) {
      return each.pointer == warning.pointer && each.text == warning.text;
    });
    if (confirmed || odd == Odd::told_in_the_text) continue;
    std::cerr << options.survey << ": odd entry: "
              << (options.json
                      ? warning.pointer + ": " + warning.text
                      : record::in_words(job.report.survey, warning.pointer + ": " + warning.text))
              << "\n";
  }
  job.standard = assessment::standard_for(job.report.survey.standard);
  return job;
}

costing::PriceBook prices(const Options& options, const record::Survey& survey) {
  costing::PriceBook book = costing::price_book(survey.standard);
  if (options.prices.empty()) return book;
  return costing::with_own_prices(std::move(book), read_file(options.prices), options.prices);
}

void find_retrofit(Job& job, const costing::PriceBook& book) {
  job.report.retrofit =
      planner::plan(job.report.survey, *job.standard, book, [](const std::string& line) {
        std::cerr << line << "\n";
        return true;
      });
}

void print(const nlohmann::ordered_json& json) { std::cout << json.dump(2) << "\n"; }

int record_deck(const Options& options) { return record(options.survey); }

int assess(const Options& options) {
  Job job = open(options, options.json ? Odd::told_here : Odd::told_in_the_text);
  job.report.assessment = assessment::assess(job.report.survey, *job.standard);
  if (options.json) {
    print(report::assessment_json(job.report.assessment));
  } else {
    std::cout << report::assessment_text(job.report);
  }
  switch (job.report.assessment.verdict) {
    case assessment::Verdict::carries:
      return 0;
    case assessment::Verdict::does_not_carry:
      return 1;
    case assessment::Verdict::cannot_tell:
      return 2;
    case assessment::Verdict::refer:
      return 3;
  }
  return exit_internal;
}

placement::Wishes wishes(const Options& options, const record::Survey& survey) {
  placement::Wishes wishes;
  wishes.turned = survey.allow.turn_load;
  // Places are told in whole inches where the deck was measured so.
  if (record::facts_of(survey.standard).units == UnitSystem::us_customary)
    wishes.step = inches(catalog::number(catalog::table("placement.json"), "step_us_in"));
  if (!options.step.empty()) {
    const Parsed<Length> step = parse_length(options.step);
    if (!step) throw UsageError("--step: " + step.problem + "; " + step.remedy);
    if (!(step.value->value() >= 10.0 && step.value->value() <= 5000.0))
      throw UsageError("--step must lie between 10 mm and 5 m");
    wishes.step = *step.value;
  }
  return wishes;
}

void find_places(Job& job, const placement::Wishes& wishes) {
  job.report.placement =
      placement::place(job.report.survey, *job.standard, wishes, [](double share) {
        std::cerr << "places looked at: " << static_cast<int>(100.0 * share) << " %\n";
        return true;
      });
}

/// Where to put it, what to build for it, what else it would cost: questions about a load.
Job open_loaded(const Options& options, const char* command) {
  Job job = open(options);
  if (job.report.survey.loads.empty())
    throw InputErrors(options.survey,
                      {{"/loads", "no load", fmt::format("1 to 20 loads for \"{}\"", command),
                        "enter the heavy thing; a deck without one is judged by \"assess\""}});
  return job;
}

int place(const Options& options) {
  Job job = open_loaded(options, "place");
  find_places(job, wishes(options, job.report.survey));
  if (options.json) {
    print(report::placement_json(*job.report.placement));
  } else {
    std::cout << report::placement_text(job.report);
  }
  return 0;
}

int retrofit(const Options& options) {
  Job job = open_loaded(options, "retrofit");
  find_retrofit(job, prices(options, job.report.survey));
  if (options.json) {
    print(report::retrofit_json(*job.report.retrofit));
  } else {
    std::cout << report::retrofit_text(job.report);
  }
  if (job.report.retrofit->refers) return 3;
  return job.report.retrofit->found ? 0 : 1;
}

void find_comparison(Job& job, const costing::PriceBook& book) {
  find_retrofit(job, book);
  job.report.comparison =
      comparison::compare(job.report.survey, *job.report.retrofit, *job.standard, book);
}

int compare(const Options& options) {
  Job job = open_loaded(options, "compare");
  find_comparison(job, prices(options, job.report.survey));
  if (options.json) {
    print(report::comparison_json(*job.report.comparison));
  } else {
    std::cout << report::comparison_text(job.report);
  }
  return 0;
}

int write_report(const Options& options) {
  Job job = open(options);
  job.report.assessment = assessment::assess(job.report.survey, *job.standard);
  if (!job.report.survey.loads.empty() &&
      job.report.assessment.verdict != assessment::Verdict::refer)
    find_places(job, wishes(options, job.report.survey));
  if (!job.report.survey.loads.empty()) find_comparison(job, prices(options, job.report.survey));
  write_file(options.output, report::html(job.report));
  std::cerr << report::notice() << "\nReport written to " << options.output << "\n";
  return 0;
}

int explain(const Options& options) {
  Job job = open(options);
  if (const std::string topic = report::never_selected_text(options.finding); !topic.empty()) {
    std::cout << topic;
    return 0;
  }
  job.report.assessment = assessment::assess(job.report.survey, *job.standard);
  const std::string text = report::explain_text(job.report, options.finding);
  if (text.empty()) {
    std::string known;
    for (const auto* list :
         {&job.report.assessment.shown.findings, &job.report.assessment.service_findings}) {
      for (const assessment::Finding& finding : *list) known += "\n  \"" + finding.id + "\"";
    }
    throw UsageError("there is no finding \"" + options.finding + "\"; this deck has" +
                     (known.empty() ? " none: its verdict is refer" : ":" + known) +
                     "\nMeasures that are never selected: " + report::never_selected_topics());
  }
  std::cout << text;
  return 0;
}

int export_model(const Options& options) {
  Job job = open(options);
  print(report::model_json(assessment::exported_models(job.report.survey, *job.standard)));
  return 0;
}

int show_catalog(const Options& options) {
  std::cout << report::notice() << "\n\n";
  if (options.table.empty()) {
    std::cout << "underprop catalog clauses: every rule with its clause and its published checks\n"
                 "Tables (underprop catalog TABLE prints one, with its sources):\n";
    for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
      std::cout << "  " << file.path.substr(0, file.path.size() - std::string_view(".json").size())
                << "\n";
    }
    std::cout << "Every key of a survey file, with what it means: underprop catalog survey\n";
    return 0;
  }
  if (options.table == "survey") {
    std::cout << record::survey_field_list();
    return 0;
  }
  if (options.table == "clauses") {
    std::cout << report::clauses_text();
    return 0;
  }
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path != options.table + ".json" && file.path != options.table) continue;
    std::cout << file.text;
    return 0;
  }
  throw UsageError("there is no table \"" + options.table + "\"; underprop catalog lists them");
}

std::string versions() {
  return fmt::format(
      "underprop {}\ndata      {} (sum over the tables it was built with)\nsurveys   {}\nresults   "
      "{}",
      UNDERPROP_VERSION, catalog::data_sum(), record::survey_format,
      fmt::join(report::result_formats(), ", "));
}

int parse_and_run(int argc, char** argv) {
  Options options;
  int (*job)(const Options&) = nullptr;
  CLI::App app{
      "Can this timber deck carry something heavy, and what is the least that would make it?\n" +
          report::notice(),
      "underprop"};
  app.require_subcommand(1);
  app.set_version_flag("--version", versions, "this program, its data and its formats");
  const auto command = [&](const char* name, const char* what, int (*run_it)(const Options&)) {
    CLI::App* sub = app.add_subcommand(name, what);
    sub->callback([&job, run_it] { job = run_it; });
    return sub;
  };
  const auto takes_survey = [&](CLI::App* sub) {
    sub->add_option("SURVEY", options.survey, "the survey file (JSON)")->required();
    return sub;
  };
  const auto takes_json = [&](CLI::App* sub) {
    sub->add_flag("--json", options.json,
                  "the result as JSON on standard output, nothing else there");
    return sub;
  };
  const auto takes_prices = [&](CLI::App* sub) {
    sub->add_option("--prices", options.prices,
                    "your own prices (JSON); they replace lines of the region's book");
    return sub;
  };
  takes_survey(
      command("record", "record a deck by questions, and go on where you stopped", record_deck));
  takes_json(
      takes_survey(command("assess", "verdict, governing findings, what isn't known", assess)));
  CLI::App* places = takes_json(takes_survey(command(
      "place",
      "where the load can stand; how much water and how many people the deck takes as it is",
      place)));
  places->add_option("--step", options.step, "distance between neighbouring places, with its unit");
  takes_prices(takes_json(takes_survey(command(
      "retrofit", "the least works after which every check passes, and alternatives", retrofit))));
  takes_prices(takes_json(takes_survey(command(
      "compare", "cost of the retrofit beside a concrete pad and a new low deck", compare))));
  CLI::App* sub = takes_prices(
      takes_survey(command("report", "everything, as one self-contained HTML file", write_report)));
  sub->add_option("-o", options.output, "the HTML file to write")->required();
  sub = takes_survey(
      command("explain", "one finding's arithmetic, line by line, with clauses", explain));
  sub->add_option("FINDING", options.finding,
                  "its id, such as \"J3/bending\"; or a measure that is never selected: " +
                      report::never_selected_topics())
      ->required();
  takes_survey(
      command("export", "the assembled analysis model and its response, as JSON", export_model));
  sub = command("catalog", "the data tables, with sources", show_catalog);
  sub->add_option("TABLE", options.table,
                  "the table to print, or clauses; without it they are listed");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const int code = app.exit(error, std::cout, std::cerr);
    return code == 0 ? 0 : exit_usage;
  }
  int code = 0;
  try {
    code = job(options);
  } catch (const standards::NoSuchTimber& error) {
    throw InputErrors(options.survey, {{error.pointer.empty() ? "/deck" : error.pointer,
                                        error.what(), "a class that the tables hold for that size",
                                        "name one of those, or ask a structural engineer"}});
  }
  std::cout.flush();
  if (!std::cout) throw FileError("standard output: cannot be written");
  return code;
}

}  // namespace

int run(int argc, char** argv) {
  try {
    return parse_and_run(argc, argv);
  } catch (const InputErrors& errors) {
    for (const std::string& line : errors.lines()) std::cerr << line << "\n";
    return exit_bad_input;
  } catch (const UsageError& error) {
    std::cerr << "underprop: " << error.what() << "\n";
    return exit_usage;
  } catch (const FileError& error) {
    std::cerr << error.what() << "\n";
    return exit_file;
  } catch (const std::bad_alloc&) {
    std::cerr << "underprop: out of memory\n";
    return exit_internal;
  } catch (const std::exception& error) {
    std::cerr << "underprop: internal fault, no answer: " << error.what()
              << "\nThis is a fault of the program, not of your survey. Please report it with the "
                 "survey file.\n";
    return exit_internal;
  }
}

}  // namespace underprop::cli
