#include "app/cli/verbs.h"

int main(int argc, char** argv) { return haylane::run_haylane(argc, argv); }
