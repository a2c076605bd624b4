; What the debugger script enters for a chip with a balance byte.

%define BALANCE
%include "debugger_writer.inc"
