; The capture program for DOS: a .COM file.

%include "capture.inc"
