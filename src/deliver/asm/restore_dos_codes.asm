; The program for DOS that shows codes for a phone as well.

%define CODES
%include "restore.inc"
