#pragma once

#include "diagnose/sentence.h"

// Sentences of several rooms, and what joins phrases.

BW_SENTENCE(as_it_is, "{}")
BW_SENTENCE(either, "{} or {}")
BW_SENTENCE(one_and_next, "{}, {}")
BW_SENTENCE(quoted, "\"{}\"")
BW_SENTENCE(assigned, "{} = \"{}\"")
BW_SENTENCE(did_you_mean, "did you mean {}?")

BW_SENTENCE(unknown_key, "unknown key `{}`")
BW_SENTENCE(did_you_mean_path, "did you mean `\"{}\"`?")

BW_SENTENCE(asked_for_here, "asked for here")
BW_SENTENCE(the_handle, "the handle")
BW_SENTENCE(the_one_before, "the one before")
BW_SENTENCE(the_other_one, "the other one")
