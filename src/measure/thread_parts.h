#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <tl/expected.hpp>

#include "measure/size_text.h"
#include "measure/thread.h"

/// What reading a unified and a metric designation have in common. For read_thread.cpp and thread_*.cpp only.
namespace blankwright::thread_parts {

using Result = tl::expected<Thread, ThreadFault>;
using Kind = ThreadFault::Kind;

/// Plain text that begins with a digit, a full stop or `#`.
Result read_unified(SizeScan in);

/// Plain text behind the `M`.
Result read_metric(SizeScan in);

tl::unexpected<ThreadFault> fault(Kind kind, std::string message, std::vector<std::string> candidates = {});

/// At another standard's name: what is wrong with that.
std::optional<tl::unexpected<ThreadFault>> other_standard(SizeScan in);

/// At the `x` or at the digits of a screw's length behind a whole thread.
bool length_follows(SizeScan in);
tl::unexpected<ThreadFault> length_fault(const std::string& thread, std::string_view length);

/// What cannot stand behind `thread`: another standard's name, or a word that is not understood.
tl::unexpected<ThreadFault> stray(const std::string& thread, std::string_view found);

}  // namespace blankwright::thread_parts
