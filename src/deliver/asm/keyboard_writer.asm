; What the letters of the keyboard program stand for.

%include "keyboard_writer.inc"
