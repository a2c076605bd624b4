#include "cli/finish.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/part_option.h"
#include "judge/examine.h"

namespace rtcmend {

namespace {

[[noreturn]] void refuse_unsound(const Made& made, const Examination& examination) {
  std::vector<std::string> faults;
  for (const Finding& finding : examination.findings)
    if (finding.severity == Severity::fault)
      faults.push_back(fmt::format("{}: {}", finding.id, finding.text));
  refuse(made.name,
         "nothing was written, because the image would not be sound: " + join(faults, "; "),
         "mend what is named, or write it all the same with --unsound-anyway");
}

Examination checked(const Made& made, const Finish& finish) {
  Examination examination =
      with_part(examine(made.image, made.layout), finish.part, made.image, made.layout);
  if (!fit_to_write(examination) && !finish.unsound_anyway) refuse_unsound(made, examination);
  return examination;
}

Report report_on(const Made& made, const Finish& finish, const Examination& examination) {
  Report report;
  report.output = finish.output.path;
  report.form = told_form(finish.output).value_or(made.form);
  report.layout = made.layout.id;
  report.size = made.image.size();
  report.composed = !made.before;
  if (report.composed) report.notes = made.layout.after_composing;
  if (made.before) report.changes = changes(*made.before, made.image, made.layout);
  report.sound = examination.sound;
  report.fit = fit_to_write(examination);
  report.findings = examination.findings;
  return report;
}

void tell(const Report& report, const Voice& voice, bool aside) {
  const std::string text = voice.json ? to_line(report_json(report)) + "\n"
                                      : report_text(report, aside ? Ink() : voice.ink());
  if (aside)
    print_aside(text);
  else
    print(text);
}

}  // namespace

void add_finish(Options& options, Finish& finish) {
  add_output(options, finish.output);
  options.flag(finish.unsound_anyway, "--unsound-anyway",
               "write the image even when it is not sound, and say what is wrong");
  add_voice(options, finish.voice);
}

void check_fit(const Made& made, const Finish& finish) {
  checked(made, finish);
}

int write_and_report(const Made& made, const Finish& finish) {
  const Examination examination = checked(made, finish);
  const Report report = report_on(made, finish, examination);
  write_image({made.image, report.form, made.layout.id, made.note}, finish.output, made.inputs);
  tell(report, finish.voice, made.output_taken || report.output == "-");
  return report.sound ? exit_good : exit_bad;
}

}  // namespace rtcmend
