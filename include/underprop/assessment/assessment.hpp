// Is it good enough, and why: findings and the verdict.
#pragma once

#include "underprop/deck/deck.hpp"
#include "underprop/standards/prescriptive.hpp"
#include "underprop/standards/standard.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace underprop::assessment {

using standards::fails;

enum class Kind { safety, service, ordinary_use };
enum class Verdict { carries, does_not_carry, cannot_tell, refer };

/// What was found for one piece and one check, at its worst over situations, combinations and bounds.
struct Finding {
  std::string id;  ///< stable: "J3/bending"
  Kind kind = Kind::safety;
  std::string piece;        ///< "J3", "B1", "P2", "boards"
  std::string where;        ///< "1250 mm from its start"
  Point at;                 ///< in plan, for the drawing
  std::string situation;    ///< "full, people on the side towards y"
  std::string combination;  ///< id
  std::string bound;        ///< "soft ground, stiff shell, joists continuous, pad P2 absent"
  standards::Check check;   ///< name, demand, resistance, unit, utilisation, clause, arithmetic
  bool guessed = false;     ///< ordinary use: not so if every open fact turns out well
  bool already = false;     ///< fails without the new load too, and hardly worse with it
  /// Passes in ordinary use though calculation says otherwise: the row of a published table that it meets.
  std::optional<standards::DeemedToSatisfy> deemed;
};

/// A support's reaction at its largest, characteristic and in the worst strength combination.
struct Reaction {
  std::string support;
  Point at;
  Force characteristic, factored;
};

/// One point of a deflected line, for the drawing.
struct Shape {
  std::string piece;
  std::vector<Point> at;
  std::vector<double> w_mm;  ///< down positive, full with people, long term
};

/// Result for one deck whose facts are resolved.
struct DeckAssessment {
  std::vector<Finding> findings;         ///< governing finding per piece and check, worst first
  std::vector<Finding> ordinary_use;     ///< fail already without the load and hardly worse with it
  std::vector<Finding> deemed;           ///< pass in ordinary use by a published table, worst first
  std::optional<std::string> mechanism;  ///< what is loose; then no numbers
  std::vector<std::string> refer_reasons;
  std::vector<std::string> feared;  ///< fields of surroundings taken as in the way: they refer
  double safety = 0.0;              ///< largest utilisation; infinity: nothing holds it
  double service = 0.0;
  std::vector<Reaction> reactions;
  std::vector<Shape> shapes;
  std::vector<std::string> loaded_pieces;  ///< pieces that the load reaches
  std::vector<std::string> cautions;
  std::vector<std::string> assumptions;
  std::size_t solves = 0;  ///< how many contact states were solved
};

/// A fact that is open, and how far resolving it alone can move the governing utilisation.
struct Unknown : deck::OpenFact {
  double swing = 0.0;
  bool refers = false;  ///< found well it alone takes away a reason to refer
};
/// What somebody must have seen of a piece before anything is said to carry.
enum class Sight {
  joists_sound,
  joists_held,  ///< at one end
  bearer_sound,
  ledger_sound,
  ledger_wall,  ///< what it is fixed to
  ledger_band,  ///< the house's wood behind it
  posts_sound,
  supports_tight,
  wall_tight,
  load_mass,
  load_contents,
  load_footprint
};
struct MustSee {
  std::string field;
  bool recorded = false;
  Sight sight = Sight::joists_sound;
  std::string piece;                     ///< group, piece or load
  bool at_start = false;                 ///< joists_held
  record::Act act = record::Act::probe;  ///< what settles it
};
/// One thing to do on site, and which of the fields asked for it settles, in their order.
struct ActNeeded {
  record::Act act = record::Act::probe;
  std::vector<std::string> fields;
};
/// A smallest set of facts that decides, and what value of each would pass.
struct Decides {
  std::vector<std::string> fields;
  std::vector<std::string> passes_if;  ///< one for each field; empty: recorded and sound
};

/// Why the verdict is what it is.
enum class Grounds {
  refers,                ///< whatever the open facts turn out to be
  every_check_passes,    ///< and what must be seen is recorded
  fails_at_best,         ///< even if every open fact turns out well
  fails_at_likely,       ///< and no one or two facts would change that
  service_fails,         ///< strength passes and all is seen
  service_fails_unseen,  ///< strength passes on what is recorded, but some must still be seen
  service_fails_first,   ///< whether it is strong enough is not known
  nobody_has_looked,     ///< too many acts are wanted of what must be seen
  facts_decide,          ///< Assessment::decides
  no_few_facts_decide
};
/// What gives out first in the reading that a verdict rests on.
struct GivesOut {
  std::optional<std::string> mechanism;
  std::optional<Finding> finding;
};

struct Assessment {
  std::string standard;
  record::StandardId standard_id = record::StandardId::eurocode_uk;
  Verdict verdict = Verdict::cannot_tell;
  bool with_load = true;  ///< false: judged as a deck, with people on it
  Grounds grounds = Grounds::nobody_has_looked;
  /// Where a reading fails: of fails_at_best the best, of fails_at_likely and nobody_has_looked the likely.
  std::optional<GivesOut> first;
  std::optional<double> utilisation;          ///< worst safety finding, all facts cautious
  std::optional<double> utilisation_service;  ///< at likely facts
  std::vector<Kind> fails;
  std::optional<Finding> governing;
  /// The reading whose numbers are shown: that which the verdict rests on. One that fails at best is shown at
  /// its best, one that fails at likely facts at those, all else cautious.
  record::Reading reading = record::Reading::cautious;
  DeckAssessment shown;  ///< findings of kind safety come from here, the cause first
  /// Where few facts decide: the same checks with every open fact at its best, per finding id.
  std::map<std::string, double> at_best;
  std::vector<Finding> service_findings;  ///< at likely facts and middle ground
  std::vector<Decides> decides;
  std::vector<deck::OpenFact> open;  ///< in survey order
  std::vector<Unknown> unknowns;     ///< largest swing first; none if it refers
  std::vector<MustSee> must_see;
  std::vector<std::string> assumptions, cautions, refer_reasons;
};

/// How a plan's new pieces may meet the deck: gap and ground cases that it must pass too.
struct PlanCases {
  bool gap_under_new_supports = false;  ///< 2 mm, or 1 mm where re-wedged
  bool rewedged = false;
  bool new_and_old_ground_differ = false;
};

/// How deep to look.
enum class Depth {
  full,        ///< all findings, steps, ranking of unknowns, decides
  utilisation  ///< verdict's utilisation only; used by planner and placement
};
/// What is looked at.
enum class Extent {
  whole,      ///< every check in every bound
  screening,  ///< a few bounds: what fails here fails the whole too; what passes says nothing yet
  service     ///< only the service findings: what safety says is then not looked at
};

/// What is asked of an assessment.
struct Options {
  Depth depth = Depth::full;
  Extent extent = Extent::whole;
  /// Nothing more is looked at once something proves loose: then only that counts.
  bool stop_when_loose = false;
  PlanCases plan_cases = {};
};

DeckAssessment assess_deck(const deck::Deck& deck, const standards::Standard& standard,
                           const Options& options = {});

/// With `plan_cases` the deck is judged as found, and with each of them too.
Assessment assess(const record::Survey& survey, const standards::Standard& standard,
                  const PlanCases& plan_cases = {});

/// What somebody has to do on site to settle these fields (of `open` or of `must_see`), the acts in the
/// order in which they are first wanted. A field that is neither is left out.
std::vector<ActNeeded> acts_for(const Assessment& a, const std::vector<std::string>& fields);

std::unique_ptr<standards::Standard> standard_for(record::StandardId id);

const char* to_string(Verdict verdict);  ///< "carries", "does not carry", "cannot tell", "refer"
const char* to_string(Kind kind);        ///< "safety", "service", "ordinary use"

}  // namespace underprop::assessment
