; The program on the boot floppy: runs on the bare machine.

%define FLOPPY
%include "restore.inc"
