#include "cli/finish.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/part_option.h"
#include "desk/change.h"
#include "desk/confession.h"
#include "desk/ready.h"
#include "terminal/report.h"

namespace rtcmend {

namespace {

Readiness checked(const Made& made, const Finish& finish) {
  Leaving leaving;
  if (!finish.part.empty()) leaving.part = &part_given(finish.part);
  if (made.before) leaving.before = &*made.before;
  Readiness ready = readiness(made.image, made.layout, made.reading, leaving);
  if (!finish.unsound_anyway) need_ready(ready, made.name);
  return ready;
}

Report report_on(const Made& made, const Finish& finish, const Readiness& ready) {
  const Examination& examination = ready.examination;
  Report report;
  report.output = finish.output.path;
  report.form = told_form(finish.output).value_or(made.form);
  report.layout = made.layout.id;
  if (!made.layout.files.empty()) report.layout_file = made.layout.files.front();
  report.size = made.image.size();
  report.composed = !made.before;
  report.notes = made.layout.when_writing;
  if (report.composed)
    report.notes.insert(report.notes.end(), made.layout.after_composing.begin(),
                        made.layout.after_composing.end());
  if (made.before) {
    report.changes = changes(*made.before, made.image, made.layout);
    report.fields = field_changes(*made.before, made.image, made.layout);
    const std::string mode = mode_change(*made.before, made.image);
    if (!mode.empty()) report.notes.push_back(mode);
  }
  report.standing = examination.standing;
  report.sound = examination.sound;
  report.findings = examination.findings;
  report.insisted = !ready.is_ready();
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

Made made_from(const Opened& opened, Image image, Inputs inputs) {
  inputs.add(opened.layout->files);
  return {opened.name,       std::move(image),  *opened.layout,
          opened.dump.form,  opened.dump.note,  opened.reading,
          std::move(inputs), opened.dump.image, false};
}

void check_fit(const Made& made, const Finish& finish) {
  checked(made, finish);
}

int write_and_report(const Made& made, const Finish& finish) {
  const Readiness ready = checked(made, finish);
  const Confession said = confession(ready, made.reading);
  Report report = report_on(made, finish, ready);
  if (!said.is_empty() && report.form != Form::json)
    report.notes.emplace_back(
        "This form cannot say what is wrong with its bytes: read again, they may pass for proven. "
        "The json form says it.");
  write_image({made.image, report.form, made.layout.id, made.note, said}, finish.output,
              made.inputs);
  tell(report, finish.voice, made.output_taken || report.output == "-");
  return report.sound && !report.insisted ? exit_good : exit_bad;
}

}  // namespace rtcmend
