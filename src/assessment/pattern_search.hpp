// Patterns of live load beyond the usual ones, on decks of more than three bays.
#pragma once

#include "state_list.hpp"

#include <functional>
#include <map>
#include <utility>

namespace underprop::assessment {

/// While patterns are sought: per check and combination, the demand under each pattern.
using PatternDemands = std::map<std::pair<int, int>, std::map<int, double>>;

/// Solves a state; with `demands` every check tells its own. False: nothing more is asked for.
using AskState = std::function<bool(const StateId& id, PatternDemands* demands)>;

/// Finds the patterns of live load that the usual ones lack, for every check. In one situation: the bays
/// that make a check worse, each by itself (its influence), are loaded together; then every bay of the
/// worst pattern so far is loaded or unloaded in turn, each time with its own contact state, until no check
/// gets worse. It ends: every step tries patterns that were not tried, and there are finitely many.
/// Patterns that turned out worst for some check are then asked in every situation.
void search_patterns(StateList& states, standards::Purpose purpose, const AskState& ask);

}  // namespace underprop::assessment
