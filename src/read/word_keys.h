#pragma once

// The keys of a template's words: texts in place of others, table by table.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>
#include <string>
#include <vector>

#include "diagnose/problem.h"
#include "diagnose/says_gate.h"
#include "diagnose/says_read.h"
#include "read/keys.h"
#include "read/template.h"

namespace blankwright {

inline constexpr Limits word_length{0, 300};
inline constexpr Limits caution_length{1, 400};

/// Reads the members of a table whose keys are texts in a list; keys of other kinds are left to the caller.
inline bool read_texts(const Node& node, const std::vector<std::string>& known, Limits limits,
                       std::span<std::string> into, Reading& in) {
  bool good = true;
  for (const Member& member : node.members) {
    const auto found = std::find(known.begin(), known.end(), member.key);
    if (found == known.end()) continue;
    const auto text = Form<std::string>::read(member.value, member.key, limits, in);
    good = good && text.has_value();
    if (text) into[static_cast<std::size_t>(found - known.begin())] = *text;
  }
  return good;
}

inline KeyInfo text_info(std::string_view name, std::string_view says, std::string limits) {
  KeyInfo info;
  info.name = name;
  info.says = says;
  info.limits = std::move(limits);
  info.shape = Form<std::string>::shape();
  return info;
}

/// The words: every key of the list, each over what stood there.
template <>
struct Slot<WordTable> {
  static bool read(const Node& node, std::string_view name, Limits, WordTable& into, Reading& in) {
    if (!is_table(node, name, in)) return false;
    std::vector<std::string> known{word_keys.begin(), word_keys.end()};
    const bool good = read_texts(node, known, word_length, into.words, in);
    known.insert(known.end(), former_word_keys.begin(), former_word_keys.end());
    const int before = in.out.errors();
    say_unknown(node, known, in);
    return good && in.out.errors() == before;
  }
  static Shape shape() {
    Shape shape{Shape::Type::table};
    for (const std::string_view word : word_keys) {
      shape.keys.push_back(text_info(word, "words on paper; the standard template has the English", ""));
    }
    shape.example = "{}";
    return shape;
  }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const WordTable&) { return {"{}", "English"}; }
  static constexpr bool required = false;
};

/// What numbers and units are written with.
template <>
struct Slot<Spelling> {
  static bool read(const Node& node, std::string_view name, Limits, Spelling& into, Reading& in) {
    if (!is_table(node, name, in)) return false;
    std::vector<std::string> known{unit_keys.begin() + 1, unit_keys.end()};  // without the unit of a bare number
    bool good = read_texts(node, known, word_length, std::span{into.units}.subspan(1), in);
    std::array<std::string, words.size()> others{into.decimal_sign, into.per, into.not_known, into.after_day};
    const std::vector<std::string> other_keys{words.begin(), words.end()};
    good = read_texts(node, other_keys, word_length, others, in) && good;
    into.decimal_sign = others[0];
    into.per = others[1];
    into.not_known = others[2];
    into.after_day = others[3];
    known.insert(known.end(), other_keys.begin(), other_keys.end());
    const int before = in.out.errors();
    say_unknown(node, known, in);
    return good && in.out.errors() == before;
  }
  static Shape shape() {
    Shape shape{Shape::Type::table};
    for (const std::string_view word : words)
      shape.keys.push_back(text_info(word, "in figures and dates on paper", ""));
    for (std::size_t i = 1; i < unit_keys.size(); ++i) {
      shape.keys.push_back(text_info(unit_keys.at(i), "unit on paper", ""));
      shape.keys.back().standard = fmt::format("\"{}\"", unit_words.at(i));
    }
    shape.example = "{}";
    return shape;
  }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const Spelling&) { return {"{}", "English"}; }
  static constexpr bool required = false;

 private:
  static constexpr std::array<std::string_view, 4> words{"decimal_sign", "per", "not_known", "after_day"};
};

/// The notes of the working: what stands before and after what they name.
template <>
struct Slot<NoteTable> {
  static bool read(const Node& node, std::string_view name, Limits, NoteTable& into, Reading& in) {
    if (!is_table(node, name, in)) return false;
    const auto known = keys();
    std::vector<std::string> texts;
    for (const NoteWords& note : into.notes) texts.insert(texts.end(), {note.before, note.after});
    const bool good = read_texts(node, known, word_length, texts, in);
    for (std::size_t i = 0; i < into.notes.size(); ++i) into.notes.at(i) = {texts.at(2 * i), texts.at(2 * i + 1)};
    const int before = in.out.errors();
    say_unknown(node, known, in);
    return good && in.out.errors() == before;
  }
  static Shape shape() {
    Shape shape{Shape::Type::table};
    for (const std::string& key : keys()) shape.keys.push_back(text_info(key, "a note on the worksheet", ""));
    shape.example = "{}";
    return shape;
  }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const NoteTable&) { return {"{}", "English"}; }
  static constexpr bool required = false;

 private:
  /// Before and after, note by note.
  static std::vector<std::string> keys() {
    std::vector<std::string> keys;
    for (const NoteFacts& note : note_list) {
      keys.insert(keys.end(), {std::string{note.key}, fmt::format("{}_after", note.key)});
    }
    return keys;
  }
};

/// The terms of the working, and where they come from: every key of the list, each over what stood there.
template <const auto& List, class Name>
struct Slot<TextsOf<List, Name>> {
  static bool read(const Node& node, std::string_view name, Limits, TextsOf<List, Name>& into, Reading& in) {
    if (!is_table(node, name, in)) return false;
    std::vector<std::string> known;
    for (const KeyedText& text : List) known.emplace_back(text.key);
    const bool good = read_texts(node, known, word_length, into.texts, in);
    const int before = in.out.errors();
    say_unknown(node, known, in);
    return good && in.out.errors() == before;
  }
  static Shape shape() {
    Shape shape{Shape::Type::table};
    for (const KeyedText& text : List) shape.keys.push_back(text_info(text.key, "on the worksheet", ""));
    shape.example = "{}";
    return shape;
  }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const TextsOf<List, Name>&) { return {"{}", "English"}; }
  static constexpr bool required = false;
};

/// What gates say: each with the places of the English, for what they name.
template <>
struct Slot<SentenceTable> {
  static bool read(const Node& node, std::string_view name, Limits, SentenceTable& into, Reading& in) {
    if (!is_table(node, name, in)) return false;
    std::vector<std::string> known;
    for (const SentenceRow& row : gate_sentences) known.emplace_back(row.name);
    const int before = in.out.errors();
    for (const Member& member : node.members) {
      const auto row = std::ranges::find(gate_sentences, std::string_view{member.key}, &SentenceRow::name);
      if (row == gate_sentences.end()) continue;
      const auto text = Form<std::string>::read(member.value, member.key, word_length, in);
      if (text && has_places(*text, *row, member.value, in)) into.texts.insert_or_assign(member.key, *text);
    }
    say_unknown(node, known, in);
    return in.out.errors() == before;
  }
  static Shape shape() {
    Shape shape{Shape::Type::table};
    for (const SentenceRow& row : gate_sentences) {
      shape.keys.push_back(text_info(row.name, "on today's sheet", ""));
      shape.keys.back().standard = fmt::format("\"{}\"", row.words);
    }
    shape.example = "{}";
    return shape;
  }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const SentenceTable&) { return {"{}", "English"}; }
  static constexpr bool required = false;

 private:
  /// No more than the English: {} or {0}, {1}, ...; a brace that stands for itself is written twice.
  static bool has_places(const std::string& text, const SentenceRow& row, const Node& node, Reading& in) {
    const auto places = places_in_text(text);
    const std::size_t wanted = *places_in_text(row.words);
    if (places && *places <= wanted) return true;
    in.out.error(Problem::out_of_range, node.at, says::places_of_sentence, row.name, wanted)
        .hint(says::the_english, row.words);
    return false;
  }
};

/// The labels of figures. That each names a figure is for planning to say, which has their list.
template <>
struct Slot<LabelTable> {
  static bool read(const Node& node, std::string_view name, Limits, LabelTable& into, Reading& in) {
    if (!is_table(node, name, in)) return false;
    bool good = true;
    for (const Member& member : node.members) {
      const auto text = Form<std::string>::read(member.value, member.key, word_length, in);
      good = good && text.has_value();
      if (text) into.labels.insert_or_assign(member.key, Given<std::string>{*text, in.origin, member.key_at, {}});
    }
    return good;
  }
  static Shape shape() {
    Shape shape{Shape::Type::texts};
    shape.example = "{}";
    return shape;
  }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const LabelTable&) { return {"{}", "English"}; }
  static constexpr bool required = false;
};

/// The cautions likewise, and `more`.
template <>
struct Slot<CautionTable> {
  static bool read(const Node& node, std::string_view name, Limits, CautionTable& into, Reading& in) {
    if (!is_table(node, name, in)) return false;
    std::vector<std::string> known;
    for (const CautionKey& key : caution_keys) known.emplace_back(key.name);
    bool good = read_texts(node, known, caution_length, into.texts, in);
    for (const Member& member : node.members) {
      if (member.key != more) continue;
      good = Slot<std::vector<Given<std::string>>>::read(member.value, more, most_more, into.more, in) && good;
    }
    known.emplace_back(more);
    const int before = in.out.errors();
    say_unknown(node, known, in);
    return good && in.out.errors() == before;
  }
  static Shape shape() {
    Shape shape{Shape::Type::table};
    for (const CautionKey& key : caution_keys) {
      shape.keys.push_back(text_info(key.name, key.says, Form<std::string>::limits(caution_length)));
    }
    KeyInfo own;
    own.name = more;
    own.says = "a shop's own, printed always";
    own.limits = list_limits(most_more);
    own.shape = Slot<std::vector<Given<std::string>>>::shape();
    shape.keys.push_back(std::move(own));
    shape.example = "{}";
    return shape;
  }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const CautionTable&) { return {"{}", "English"}; }
  static constexpr bool required = false;

 private:
  static constexpr std::string_view more = "more";
  static constexpr Limits most_more{0, 20};
};

}  // namespace blankwright
