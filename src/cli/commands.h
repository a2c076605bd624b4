#pragma once

#include <functional>
#include <span>
#include <string_view>

#include "cli/options.h"

namespace rtcmend {

/// What a command does once its options are filled in; returns the exit code.
using Action = std::function<int()>;

/// One command of the program.
///
/// To add one: write cli/NAME.cpp with a function `Action set_up_NAME(Options&)` that declares the
/// options, gives an example and returns the action; then declare that function and add one line to
/// the table in commands.cpp. Help, overview, manual, completion and the "did you mean" follow from
/// the table. Only the chosen command is set up, so that a command costs nothing when another one
/// runs.
struct Command {
  std::string_view name;
  std::string_view summary;    ///< a line for the list of commands
  std::string_view situation;  ///< where the reader stands, for the overview
  std::string_view example;    ///< the command line for that situation
  Action (*set_up)(Options&);
};

/// Exit codes of a command that ran; refusals are thrown as Error.
inline constexpr int exit_good = 0;  ///< done, and sound or equal
inline constexpr int exit_bad = 1;   ///< done, but not sound or different

/// All commands, in the order of the overview.
std::span<const Command> commands();
/// Refuses (Error) an unknown command with the nearest names.
const Command& command_named(std::string_view name);

}  // namespace rtcmend
