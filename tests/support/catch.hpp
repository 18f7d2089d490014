// Catch2, whichever major version is installed: version 3 has catch_all.hpp, version 2 one header.
// Either way `Approx` is found without a namespace.
#pragma once

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
#endif
