; What the letters of the keyboard program stand for, for a chip with a balance byte.

%define BALANCE
%include "keyboard_writer.inc"
