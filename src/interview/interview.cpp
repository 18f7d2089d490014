#include "underprop/interview/interview.hpp"

#include "deck/read_checks.hpp"
#include "parts.hpp"
#include "record/read_fields.hpp"
#include "record/spoken.hpp"

#include "base/utf8.hpp"
#include "underprop/record/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <stdexcept>

namespace underprop::interview {
namespace {

constexpr std::size_t longest_answer = 200;

bool at_or_below(const std::string& pointer, const std::string& top) {
  return pointer == top || pointer.starts_with(top + "/");
}

Json plain_json(const OrderedJson& ordered) { return Json::parse(ordered.dump()); }

/// Did this question write what stands at the pointer, or above it?
bool wrote(const Walk& walk, const std::string& question, const std::string& pointer) {
  return std::ranges::any_of(walk.owners(), [&](const auto& entry) {
    return entry.second == question && at_or_below(pointer, entry.first);
  });
}

/// What an end rests on is complete only once supports and rims have been asked.
bool premature(const std::string& pointer) { return pointer.ends_with("/held"); }

/// What a look at timber without a stamp came to; "" for other questions.
std::string came_to(const Walk& walk, const Ask& ask) {
  if (ask.key != "look" && ask.key != "poor") return "";
  for (const auto& [pointer, question] : walk.owners()) {
    if (question != ask.id) continue;
    if (pointer.ends_with("/timber")) {
      return "; so the timber counts as " +
             walk.survey().at(OrderedJson::json_pointer(pointer)).get<std::string>();
    }
    if (pointer.ends_with("/defect")) return "; recorded as missing: they carry nothing";
  }
  return "; so the class stays unknown";
}

/// For people a place in the file is an answer of theirs: "/deck/height" is "answer 5".
std::string in_answers(const Walk& walk, const std::string& text, const std::string& asked_now) {
  std::string told;
  const auto part_of_pointer = [](char c) {
    return c == '/' || c == '_' || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') ||
           (c >= 'A' && c <= 'Z');
  };
  for (std::size_t at = 0; at < text.size();) {
    const bool starts = text[at] == '/' &&
                        (at == 0 || text[at - 1] == ' ' || text[at - 1] == '(') &&
                        at + 1 < text.size() && text[at + 1] >= 'a' && text[at + 1] <= 'z';
    if (!starts) {
      told += text[at++];
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && part_of_pointer(text[end])) ++end;
    const std::string owner = walk.owner(text.substr(at, end - at));
    std::size_t number = 0;
    for (std::size_t k = 0; k < walk.asked().size(); ++k) {
      if (walk.asked()[k].ask.id == owner) number = k + 1;
    }
    told += owner == asked_now ? "this answer"
            : number > 0
                ? fmt::format("answer {}", number)
                : text.substr(text.rfind('/', end - 1) + 1, end - 1 - text.rfind('/', end - 1));
    at = end;
  }
  return told;
}

std::string meant_by(const std::string& remedy) {
  constexpr std::string_view start = "did you mean \"";
  if (!remedy.starts_with(start)) return "";
  return remedy.substr(start.size(), remedy.rfind('"') - start.size());
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

std::string sentence(const InputError& error) {
  const std::string remedy = error.remedy.empty() ? "" : " " + capital(error.remedy) + ".";
  return fmt::format("{}. Allowed: {}.{}", error.found, error.allowed, remedy);
}

bool is_open_fact(const Walk::Asked& asked) {
  return asked.empty && (asked.ask.empty == Empty::unknown || asked.ask.empty == Empty::range);
}

std::vector<record::Answer> only_asked(const std::vector<record::Answer>& answers) {
  const Walk walk = walk_through(answers);
  std::vector<record::Answer> kept;
  for (const Walk::Asked& asked : walk.asked()) {
    kept.push_back({asked.ask.id, asked.said, false});
  }
  return kept;
}

deck::ReadResult survey_of(const std::vector<record::Answer>& answers, const std::string& file) {
  const Walk walk = walk_through(answers);
  if (!walk.going()) throw std::logic_error("an interview that is not finished has no survey");
  return deck::read_survey(walk.survey().dump(2), file);
}

std::string without_recording(record::Survey survey) {
  survey.recording.reset();
  return record::write_survey(survey);
}

record::Recording recording_in(const Json& json, const std::string& file) {
  ErrorList errors(file);
  record::Recording recording;
  ObjectReader top(json, "", errors);
  top.allow({"format"});
  const bool there = top.object("recording", [&](ObjectReader& inner) {
    record::read_recording(inner, record::ReadContext{errors, std::nullopt}, recording);
  });
  if (there) top.finish();
  errors.throw_if_any();
  return recording;
}

}  // namespace

std::vector<record::Warning> kept_while_recording(const record::Survey& survey,
                                                  const std::vector<record::Warning>& odd) {
  std::vector<record::Warning> kept;
  if (odd.empty() || !survey.recording || !survey.recording->finished) return kept;
  const Walk walk = walk_through(survey.recording->answers);
  if (!walk.going()) return kept;
  for (const record::Warning& asked :
       deck::odd_values(deck::read_part(plain_json(walk.survey()), "the answers").survey)) {
    // Places that no answer wrote were not questioned.
    if (!walk.owners().contains(asked.pointer)) continue;
    for (const record::Warning& warning : odd) {
      if (warning.pointer == asked.pointer && warning.text == asked.text) kept.push_back(warning);
    }
  }
  return kept;
}

struct Interview::Passed {
  std::vector<record::Answer> answers;
  Walk walk;
  deck::PartSurvey part;
  std::vector<record::Warning> odd;
};

std::shared_ptr<const Interview::Passed> Interview::passed() const {
  const auto same = [](const record::Answer& a, const record::Answer& b) {
    return a.reopened == b.reopened && a.question == b.question && a.said == b.said;
  };
  if (!passed_ || !std::ranges::equal(passed_->answers, answers_, same)) {
    Walk walk = walk_through(answers_);
    deck::PartSurvey part = deck::read_part(plain_json(walk.survey()), "the answers");
    std::vector<record::Warning> odd = deck::odd_values(part.survey);
    passed_ = std::make_shared<const Passed>(
        Passed{answers_, std::move(walk), std::move(part), std::move(odd)});
  }
  return passed_;
}

std::string Interview::words_help() {
  return "Besides answers these words are understood: back (to the last question; back 12: to "
         "answer 12), skip (leave open), same (keep what you said to this question before), why "
         "(more about the question), list "
         "(all answers so far), stop (go on another day), help.";
}

Interview Interview::resume(std::string_view text, const std::string& file) {
  const Json json = read_json_text(text, file);
  Interview interview;
  const bool recorded = json.is_object() && json.contains("recording") &&
                        json.at("recording").is_object() &&
                        json.at("recording").contains("finished");
  if (recorded && json.at("recording").at("finished") == false) {
    interview.answers_ = recording_in(json, file).answers;
    return interview;
  }
  const record::Survey survey = deck::read_survey(text, file).survey;
  if (!survey.recording) {
    throw InputErrors(
        file, {{"", "a survey that was not recorded by questions", "a recording, or a new file",
                "edit it by hand as data/schema/survey.json says, or record into another file"}});
  }
  interview.answers_ = survey.recording->answers;
  const Walk walk = walk_through(interview.answers_);
  if (!walk.going() ||
      without_recording(survey_of(interview.answers_, file).survey) != without_recording(survey)) {
    throw InputErrors(file,
                      {{"/recording", "a survey that was edited by hand since it was recorded",
                        "a recording that the survey still follows",
                        "go on editing by hand, or record into another file: asking again "
                        "here would lose what was edited"}});
  }
  return interview;
}

bool Interview::finished() const { return passed()->walk.going(); }

std::optional<Question> Interview::question() const {
  const std::shared_ptr<const Passed> now = passed();
  const Walk& walk = now->walk;
  if (walk.going()) return std::nullopt;
  Question question = worded(*walk.pending(), walk.standard());
  for (const record::Answer& answer : answers_) {
    if (answer.question == question.id) question.earlier = answer.said;
  }
  question.answered = static_cast<int>(walk.asked().size());
  return question;
}

std::string Interview::file_text() const {
  const std::shared_ptr<const Passed> now = passed();
  const Walk& walk = now->walk;
  if (walk.going()) {
    record::Survey survey = survey_of(answers_, "the answers").survey;
    survey.recording = record::Recording{true, only_asked(answers_)};
    return record::write_survey(survey);
  }
  OrderedJson answers = OrderedJson::array();
  for (const record::Answer& answer : answers_) {
    OrderedJson one{{"question", answer.question}};
    if (!answer.said.empty()) one["said"] = answer.said;
    if (answer.reopened) one["reopened"] = true;
    answers.push_back(std::move(one));
  }
  const OrderedJson file{
      {"format", record::survey_format},
      {"recording", OrderedJson{{"finished", false}, {"answers", std::move(answers)}}}};
  return file.dump(2) + "\n";
}

deck::ReadResult Interview::survey() const { return survey_of(answers_, "the answers"); }

void Interview::store(const std::string& question, const std::string& said) {
  const auto found = std::ranges::find_if(
      answers_, [&](const record::Answer& answer) { return answer.question == question; });
  if (found == answers_.end()) {
    answers_.push_back({question, said, false});
  } else {
    found->said = said;
    found->reopened = false;
  }
}

Reply Interview::say(std::string_view line) {
  if (first_bad_utf8(line) != std::string_view::npos) {
    return {.text =
                "Not understood: there are bytes in it that are no text in UTF-8. Say it in "
                "plain letters."};
  }
  const std::string said = record::tidy(line);
  if (doubt_) {
    const Doubt doubt = *doubt_;
    doubt_.reset();
    const std::string word = record::lower(said);
    if ((word == "yes" || word == "y") && !doubt.meant.empty()) return answer(doubt.meant, false);
    // "100x100" was asked back, and the answer is the one word that was missing.
    if (!doubt.heard.empty() && (word == "measured" || word == "sawn" || word == "regularised")) {
      return answer(doubt.heard + " " + word, false);
    }
    if (doubt.leave_open && (word.empty() || word == "skip" || is_not_known(word))) {
      return answer("", true);
    }
    if (!doubt.leave_open && (word == "keep" || (said == doubt.said && !said.empty()))) {
      if (!doubt.said.empty()) return answer(doubt.said, true);
    }
  }
  bool handled = false;
  const Reply reply = command(record::lower(said), handled);
  return handled ? reply : answer(said, false);
}

Reply Interview::command(const std::string& word, bool& handled) {
  handled = true;
  if (word == "stop") return {.text = "", .stop = true};
  if (word == "help") return {.text = words_help()};
  if (word == "list") return list();
  if (word == "back") return back(0);
  if (word.starts_with("back ")) {
    std::size_t number = 0;
    const auto read = std::from_chars(word.data() + 5, word.data() + word.size(), number);
    if (read.ec == std::errc{} && read.ptr == word.data() + word.size() && number > 0) {
      return back(number);
    }
  }
  const std::shared_ptr<const Passed> now = passed();
  const Walk& walk = now->walk;
  if (word.starts_with("back ")) {
    if (!walk.going() && walk.pending()->form == Form::text) {  // a deck called "Back deck"
      handled = false;
      return {};
    }
    return {.text = "back, or back and the number of an answer: list shows the numbers"};
  }
  if (word == "open" && walk.going()) {
    int reopened = 0;
    for (const Walk::Asked& asked : walk.asked()) {
      if (!is_open_fact(asked)) continue;
      ++reopened;
      for (record::Answer& answer : answers_) {
        if (answer.question == asked.ask.id) answer.reopened = true;
      }
    }
    return {.text = fmt::format("{} {} open.", reopened,
                                reopened == 1 ? "question is" : "questions are"),
            .changed = reopened > 0};
  }
  if (walk.going()) {
    return {.text =
                "Everything is answered. back (or back 12) changes an answer, open asks again "
                "what is not known, stop ends."};
  }
  if (word == "why") return explain();
  if (word == "skip") return answer(walk.pending()->must_look ? "unknown" : "", false);
  if (word == "same") {
    const std::string& id = walk.pending()->id;
    const auto found = std::ranges::find_if(
        answers_, [&](const record::Answer& answer) { return answer.question == id; });
    if (found == answers_.end()) {
      return {.text =
                  "There is nothing to repeat: you have not answered this question before. "
                  "\"same\" keeps your own earlier answer to it. Please answer it, or say skip."};
    }
    return answer(found->said, true);
  }
  handled = false;
  return {};
}

Reply Interview::back(std::size_t number) {
  const std::shared_ptr<const Passed> now = passed();
  const Walk& walk = now->walk;
  const std::size_t count = walk.asked().size();
  if (count == 0) return {.text = "This is the first question."};
  if (number > count) return {.text = fmt::format("There are only {} answers so far.", count)};
  const std::string& id = walk.asked()[number == 0 ? count - 1 : number - 1].ask.id;
  for (record::Answer& answer : answers_) {
    if (answer.question == id) answer.reopened = true;
  }
  return {.text = "", .changed = true};
}

Reply Interview::list() const {
  const std::shared_ptr<const Passed> now = passed();
  const Walk& walk = now->walk;
  std::string text;
  int number = 0;
  for (const Walk::Asked& asked : walk.asked()) {
    text +=
        fmt::format("{}{:>3}  {}: {}", text.empty() ? "" : "\n", ++number, named(asked.ask),
                    asked.said.empty() ? (is_open_fact(asked) ? "not known" : "none") : asked.said);
  }
  return {.text = text.empty() ? std::string("No answers yet.") : text};
}

Reply Interview::explain() const {
  const std::shared_ptr<const Passed> now = passed();
  const Walk& walk = now->walk;
  const Question asked = worded(*walk.pending(), walk.standard());
  std::string text = asked.why;
  const std::string assumption = assumed(*walk.pending(), walk.standard());
  if (!assumption.empty()) text += "\n" + assumption;
  if (asked.must_see) text += "\nWhile this is open the verdict can't be \"carries\".";
  return {.text = text};
}

Reply Interview::answer(const std::string& text, bool settled) {
  const std::shared_ptr<const Passed> before = passed();
  const Ask& ask = *before->walk.pending();
  const record::StandardId standard = before->walk.standard();
  std::string said = text;
  if (said.size() > longest_answer) {
    return {.text = fmt::format("That is longer than {} bytes; say it shorter.", longest_answer)};
  }
  if (ask.form == Form::date && record::lower(said) == "today" && !today_.empty()) said = today_;
  const Meaning taken = take(ask, said, standard);
  const auto doubted = [&](std::string why, std::string meant, bool keep) {
    std::string reply = std::move(why);
    if (!meant.empty()) reply += fmt::format(" Did you mean {}? (yes, or answer again)", meant);
    if (keep) reply += meant.empty() ? " (keep: it is so)" : fmt::format(" (keep: it is {})", said);
    doubt_ = Doubt{keep ? said : std::string(), std::move(meant), false, said};
    return Reply{.text = std::move(reply)};
  };
  if (!taken.understood) {
    const std::string remedy = taken.meant.empty() ? "; " + taken.remedy : std::string();
    return doubted(fmt::format("Not understood: {}{}.", taken.problem, remedy), taken.meant, false);
  }
  if (taken.empty && must_be_seen(ask) && !settled) {
    doubt_ = Doubt{"", "", true, ""};
    std::string cost =
        "This is a fact that has to be seen: while it is open the verdict can't be \"carries\".";
    if (ask.empty == Empty::range) cost += " " + capital(taken.shown) + ".";
    return {.text = cost + " Say skip once more to leave it open, or answer."};
  }
  const std::vector<record::Answer> kept = answers_;
  const std::string asked = ask.id;
  store(asked, taken.empty ? std::string() : said);
  const std::shared_ptr<const Passed> now = passed();
  const Walk& after = now->walk;
  const deck::PartSurvey& part = now->part;
  const Unusual doubt = unusual(ask, said, standard);
  for (const InputError& error : part.errors) {
    if (premature(error.pointer) || !wrote(after, ask.id, error.pointer)) continue;
    answers_ = kept;
    passed_ = before;
    const std::string meant = doubt.meant.empty() ? meant_by(error.remedy) : doubt.meant;
    InputError told = error;
    if (told.remedy.starts_with("did you mean")) told.remedy.clear();  // said once, by what follows
    return doubted("That cannot be: " + in_answers(after, sentence(told), asked), meant, false);
  }
  if (!settled && !taken.empty) {
    // What this answer has made odd, here or in an earlier answer; places nobody wrote are not due yet.
    const std::vector<record::Warning>& earlier = before->odd;
    const auto is_new = [&](const record::Warning& warning) {
      return after.owners().contains(warning.pointer) &&
             std::ranges::none_of(earlier, [&](const record::Warning& old) {
               return old.pointer == warning.pointer && old.text == warning.text;
             });
    };
    std::string question = doubt.why.empty() ? "" : doubt.why + ".";
    for (const record::Warning& warning : now->odd) {
      // One doubt about one answer is enough.
      if (!is_new(warning) || (!doubt.why.empty() && wrote(after, asked, warning.pointer)))
        continue;
      question +=
          (question.empty() ? "Is that so: " : " ") + in_answers(after, warning.text, asked);
    }
    if (!question.empty()) {
      answers_ = kept;
      passed_ = before;
      return doubted(question, doubt.meant, true);
    }
  }
  Reply reply{.text = fmt::format("= {}: {}{}", named(ask), taken.shown, came_to(after, ask)),
              .changed = true};
  if (after.going()) {
    const std::string trouble = hold_water();
    if (!trouble.empty()) reply.text += "\n" + trouble;
  }
  return reply;
}

/// Every question is answered: do the answers fit together? If not, the one to blame is asked again.
std::string Interview::hold_water() {
  const std::shared_ptr<const Passed> now = passed();
  const Walk& walk = now->walk;
  const deck::PartSurvey& part = now->part;
  if (part.errors.empty()) return "";
  const InputError& error = part.errors.front();
  std::string owner = walk.owner(error.pointer);
  if (error.found.find("rests on nothing") != std::string::npos) owner = "carriers/bearers/count";
  if (owner.empty()) owner = walk.asked().back().ask.id;
  for (record::Answer& answer : answers_) {
    if (answer.question == owner) answer.reopened = true;
  }
  return fmt::format("Together the answers do not fit: {} One of them is asked again.",
                     in_answers(walk, sentence(error), ""));
}

}  // namespace underprop::interview
