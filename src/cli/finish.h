#pragma once

#include <string>
#include <vector>

#include "cli/options.h"
#include "cli/output.h"
#include "cli/print.h"
#include "desk/open.h"
#include "layout/layout.h"
#include "terminal/report.h"

namespace rtcmend {

/// How amend, seal and compose end.
struct Finish {
  Output output;
  std::string part;  ///< the chip it is for; empty = not said
  bool unsound_anyway = false;
  Voice voice;
};

/// The output's options, --unsound-anyway, --json and --color.
void add_finish(Options& options, Finish& finish);

/// An image that is ready to be judged and written.
struct Made {
  std::string name;  ///< what it was made from, for messages
  Image image;
  const Layout& layout;
  Form form;                     ///< when neither --to nor the output's name says another
  std::string note;              ///< for the json form
  std::vector<Finding> reading;  ///< what is wrong with the reading of the dump it began as
  Inputs inputs;                 ///< files that were read
  std::optional<Image> before;   ///< what it was; nothing = made from nothing
  bool output_taken = false;     ///< standard output, by something else than the image
};

/// What a changed dump is made into. The files of its layout join the inputs.
Made made_from(const Opened& opened, Image image, Inputs inputs);

/// Refuses (Error) an image that is not fit to be written, naming the faults, unless told
/// otherwise.
void check_fit(const Made& made, const Finish& finish);

/// Checks that it is fit; writes it; reports. Returns 0, or 1 when what was written is not sound.
int write_and_report(const Made& made, const Finish& finish);

}  // namespace rtcmend
