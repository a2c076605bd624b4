; What the debugger script enters.

%include "debugger_writer.inc"
