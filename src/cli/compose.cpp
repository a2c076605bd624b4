#include "make/compose.h"

#include <iostream>

#include "base/error.h"
#include "base/files.h"
#include "cli/ask.h"
#include "cli/clock_option.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/finish.h"
#include "cli/layout_file.h"
#include "cli/part_option.h"

namespace rtcmend {

namespace {

struct ComposeOptions {
  std::string description, layout, clock, save;
  bool ask = false;
  Finish finish;
};

/// What to compose, and which layout says how.
struct Order {
  std::string name;
  Description description;
  Layout layout;
};

void need_one_source(const ComposeOptions& given) {
  if (given.ask && !given.description.empty())
    refuse("--ask", "a description is there already, so there is nothing to ask",
           "one of the two: DESCRIPTION or --ask");
  if (given.ask && given.layout.empty())
    refuse("--layout", "the questions depend on it, so it is needed",
           "--layout at; \"rtcmend layouts list\" names them all");
  if (!given.ask && given.description.empty())
    refuse("DESCRIPTION", "it is needed, and was not given",
           "--ask --layout ID to be asked instead");
}

Order asked_order(const ComposeOptions& given) {
  Layout layout = layout_named(given.layout);
  // Questions keep off standard output when the image or the description goes there.
  const bool aside = given.finish.output.path == "-" || given.save == "-";
  std::ostream& questions = aside ? std::cerr : std::cout;
  Description description = ask(layout, std::cin, questions);
  questions << std::endl;
  description.layout = given.layout;
  return {"the answers", std::move(description), std::move(layout)};
}

Order read_order(const ComposeOptions& given) {
  const std::string name = spoken_name(given.description);
  Description description = parse_description(read_whole(given.description), name);
  if (!given.layout.empty()) description.layout = given.layout;
  if (description.layout.empty())
    refuse(name, "it names no layout", "\"layout\": \"at\" in it, or --layout ID");
  Layout layout = given.layout.empty() ? layout_named_in(given.description, description.layout)
                                       : layout_named(given.layout);
  return {name, std::move(description), std::move(layout)};
}

void check_save(const ComposeOptions& given, const WriteRules& rules) {
  check_output(given.save, rules);
  if (same_output(given.save, given.finish.output.path))
    refuse("--save", "the description and the image cannot have one name",
           "another name for --save, ending in .json");
}

/// The description with its time settled, and the size of its chip where a part says it.
Description settled(Description description, const std::string& clock, const std::string& part,
                    const Layout& layout) {
  if (!part.empty() && !description.size)
    description.size = std::max<std::size_t>(part_given(part).size, layout.size);
  if (!clock.empty()) description.clock = parse_clock(clock, "--clock");
  if (clock.empty() && description.clock_now) description.clock = local_now();
  return description;
}

int compose_image(const ComposeOptions& given) {
  need_one_source(given);
  check_part(given.finish.part);
  Inputs inputs{given.description, given.layout};
  WriteRules save_rules{given.finish.output.force, inputs};
  check_output(given.finish.output, inputs);
  if (!given.save.empty()) check_save(given, save_rules);
  const Order order = given.ask ? asked_order(given) : read_order(given);
  const Description description =
      settled(order.description, given.clock, given.finish.part, order.layout);
  inputs.add(order.layout.files);
  save_rules.inputs = inputs;
  const Image image = compose(description, order.layout);
  const Made made{order.name, image,  order.layout, Form::raw,        description.note,
                  {},         inputs, std::nullopt, given.save == "-"};
  check_fit(made, given.finish);
  if (!given.save.empty()) write_whole(given.save, to_json(order.description), save_rules);
  return write_and_report(made, given.finish);
}

}  // namespace

Action set_up_compose(Options& options) {
  auto given = std::make_shared<ComposeOptions>();
  options.optional_word(given->description, "DESCRIPTION",
                        "what is fitted in the machine, as JSON: {\"layout\": \"at\", \"clock\": "
                        "\"now\", \"set\": {\"floppy_a\": \"1.44M\", \"disk_0_type\": 39}}; - is "
                        "standard input");
  options.flag(given->ask, "--ask", "ask instead, one plain question at a time");
  options.value(given->layout, "--layout", "ID|FILE",
                "the layout, in place of the description's own");
  options.value(given->clock, "--clock", "TIME", "set the clock: 2031-05-14T09:30:00, or now");
  options.value(given->save, "--save", "FILE", "write the description, for the next time");
  add_part(options, given->finish.part);
  add_finish(options, given->finish);
  options.example("rtcmend compose machine.json -o new.bin");
  options.example("rtcmend compose --ask --layout at --save machine.json -o new.bin");
  return [given] { return compose_image(*given); };
}

}  // namespace rtcmend
