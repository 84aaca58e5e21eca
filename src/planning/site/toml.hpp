#pragma once

// The TOML library (3.3) asserts of some wrong files that they cannot be, and goes on to say what is wrong with them.
// What it says is wanted where asserts are on, too.
#define TOML_ASSERT(expression) static_assert(true)
#include <toml++/toml.h>
