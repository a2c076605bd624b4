#include "cli/run.h"

int main(int argc, char** argv) {
  return rtcmend::run(argc, argv);
}
