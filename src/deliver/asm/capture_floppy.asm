; The capture program on the boot floppy: runs on the bare machine.

%define FLOPPY
%include "capture.inc"
