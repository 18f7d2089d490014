#include "cli/run.hpp"
int main(int argc, char** argv) { return underprop::cli::run(argc, argv); }
