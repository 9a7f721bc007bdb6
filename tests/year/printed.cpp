#include "printed.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "program.h"

namespace simulated {
namespace {

double attribute(std::string_view line, std::string_view name) {
  const std::size_t at = line.find(name);
  if (at == std::string_view::npos) return 0;
  return std::strtod(std::string{line.substr(at + name.size() + 2, 16)}.c_str(), nullptr);
}

void replace_all(std::string& text, std::string_view what, std::string_view with) {
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += with.size())
    text.replace(at, what.size(), with);
}

Word word_of(const std::string& line) {
  const std::size_t begin = line.find('>') + 1;
  std::string text = line.substr(begin, line.find("</word>") - begin);
  replace_all(text, "&apos;", "'");
  replace_all(text, "&quot;", "\"");
  replace_all(text, "&lt;", "<");
  replace_all(text, "&gt;", ">");
  replace_all(text, "&amp;", "&");
  return {std::move(text), attribute(line, "xMin"), attribute(line, "yMin"), attribute(line, "xMax"),
          attribute(line, "yMax")};
}

bool same_line(const Word& a, const Word& b) {
  return std::abs(a.middle() - b.middle()) < 0.4 * std::min(a.bottom - a.top, b.bottom - b.top);
}

/// The word that follows on the line, at the distance of a blank.
const Word* next_word(const std::vector<Word>& words, const Word& from) {
  const Word* best = nullptr;
  for (const Word& word : words)
    if (word.left >= from.right - 0.5 && word.left - from.right < 0.6 * (from.bottom - from.top) &&
        same_line(word, from) && (best == nullptr || word.left < best->left))
      best = &word;
  return best;
}

}  // namespace

const Word* PrintedPage::find(std::string_view words_in_a_row, int nth) const {
  const std::vector<std::string> parts = parts_of(words_in_a_row, " ");
  for (const Word& first : words) {
    if (first.text != parts.front()) continue;
    const Word* last = &first;
    for (std::size_t i = 1; i < parts.size() && last != nullptr; ++i) {
      last = next_word(words, *last);
      if (last != nullptr && last->text != parts[i]) last = nullptr;
    }
    if (last != nullptr && nth-- == 0) return &first;
  }
  return nullptr;
}

std::vector<std::vector<Word>> PrintedPage::lines() const {
  std::vector<Word> sorted = words;
  // By their feet: a large figure and its small unit stand on one line.
  std::ranges::stable_sort(sorted, {}, &Word::bottom);
  std::vector<std::vector<Word>> out;
  for (const Word& word : sorted) {
    if (out.empty() || word.bottom - out.back().front().bottom > 3.5) out.emplace_back();
    out.back().push_back(word);
  }
  for (auto& line : out) std::ranges::stable_sort(line, {}, &Word::left);
  return out;
}

std::string PrintedPage::within(double left, double top, double right, double bottom) const {
  PrintedPage part;
  for (const Word& word : words)
    if (word.left >= left && word.left < right && word.middle() >= top && word.middle() < bottom)
      part.words.push_back(word);
  std::string out;
  for (const auto& line : part.lines()) out += (out.empty() ? "" : " ") + joined(line);
  return out;
}

std::string PrintedPage::below(std::string_view caption, double height, int nth) const {
  const Word* head = find(caption, nth);
  if (head == nullptr) return {};
  const Word* last = head;
  for (std::size_t i = parts_of(caption, " ").size(); i > 1; --i) last = next_word(words, *last);
  // The next caption begins where a word on this line does not follow at the distance of a blank.
  for (const Word* more = next_word(words, *last); more != nullptr; more = next_word(words, *last)) last = more;
  double right = 10000;
  for (const Word& word : words)
    if (same_line(word, *head) && word.left > last->right) right = std::min(right, word.left);
  return within(head->left - 1.5, head->bottom, right - 1.5, head->bottom + height);
}

std::string PrintedPage::behind(std::string_view words_in_a_row) const {
  const Word* head = find(words_in_a_row);
  if (head == nullptr) return {};
  const Word* last = head;
  for (std::size_t i = parts_of(words_in_a_row, " ").size(); i > 1; --i) last = next_word(words, *last);
  return within(last->right, head->top, 10000, head->bottom);
}

std::vector<PrintedPage> printed_pages(const std::string& bbox_text) {
  std::vector<PrintedPage> out;
  for (const std::string& line : lines_of(bbox_text)) {
    if (line.find("<page ") != std::string::npos) out.emplace_back();
    if (!out.empty() && line.find("<word ") != std::string::npos) out.back().words.push_back(word_of(line));
  }
  return out;
}

std::string joined(const std::vector<Word>& words) {
  std::string out;
  for (const Word& word : words) out += (out.empty() ? "" : " ") + word.text;
  return out;
}

}  // namespace simulated
