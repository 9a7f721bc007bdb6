#pragma once

#include <chrono>
#include <string>

#include "sheet/paper/dossier.h"

// Moments and days in the template's words and the shop's zone.

namespace blankwright {

/// "Mon 25 Jan 08:30".
std::string moment_text(const Template& t, const Zone& zone, Instant instant);
std::string moment_text(const Dossier& dossier, Instant instant);
/// "Mon 25 Jan": its day alone.
std::string date_text(const Template& t, Date date);
std::string date_text(const Dossier& dossier, Instant instant);
/// The same as moment_text() with its year, for moments that may lie far off.
std::string dated_text(const Template& t, const Zone& zone, Instant instant);
std::string dated_text(const Dossier& dossier, Instant instant);
/// "Mon 25 Jan 2027".
std::string weekday_text(const Template& t, Date date);
/// "27 d 19 h", or "5 h 10 min" below two days: how late something is.
std::string late_text(const Template& sheet_template, std::chrono::minutes late_by);
/// How long something takes as the routing has it: up to five minutes, from two hours on to a quarter of an hour.
/// What is planned anew prints another length only where that is of weight.
Duration rounded_length(Duration length);
/// "25 Jan 2027".
std::string day_text(const Template& t, Date date);

}  // namespace blankwright
