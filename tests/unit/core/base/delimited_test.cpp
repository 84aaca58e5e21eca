#include "core/base/delimited.hpp"

#include <gtest/gtest.h>

namespace stillheap {
namespace {

using Fields = std::vector<std::string>;

TEST(SplitRecord, SplitsPlainFieldsAndDropsBlanks) {
  EXPECT_EQ(split_record("a, b ,,c", ','), (Fields{"a", "b", "", "c"}));
  EXPECT_EQ(split_record("", ','), (Fields{""}));
  EXPECT_EQ(split_record("a,", ','), (Fields{"a", ""}));
  EXPECT_EQ(split_record("1;2,5;3", ';'), (Fields{"1", "2,5", "3"}));
}

TEST(SplitRecord, HonoursQuotes) {
  EXPECT_EQ(split_record(R"("a,b","say ""hi""", " c ")", ','), (Fields{"a,b", "say \"hi\"", " c "}));
  EXPECT_EQ(split_record(R"("")", ','), (Fields{""}));
}

TEST(SplitRecord, RefusesBrokenQuotes) {
  EXPECT_FALSE(split_record(R"("never closed,1)", ','));
  EXPECT_FALSE(split_record(R"("a"b,1)", ','));
}

TEST(DelimiterOf, TakesTheMostFrequentOutsideQuotes) {
  EXPECT_EQ(delimiter_of("time,air,sun"), ',');
  EXPECT_EQ(delimiter_of("\"time, local, here\";air;sun"), ';');
  EXPECT_EQ(delimiter_of("time\tair"), '\t');
  EXPECT_EQ(delimiter_of("time"), ',');
}

TEST(NumberOf, ReadsWholeDecimalNumbersOnly) {
  EXPECT_EQ(number_of(" +3.5 "), 3.5);
  EXPECT_EQ(number_of("-1e-3"), -1e-3);
  for (const char* text : {"", "3,5", "3.5 C", "nan", "inf", "-"}) EXPECT_FALSE(number_of(text)) << text;
}

}  // namespace
}  // namespace stillheap
