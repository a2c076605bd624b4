; The program for DOS: a .COM file.

%include "restore.inc"
