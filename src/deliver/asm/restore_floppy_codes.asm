; The program on the boot floppy that shows codes for a phone as well.

%define FLOPPY
%define CODES
%include "restore.inc"
