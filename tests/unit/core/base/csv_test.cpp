#include "core/base/csv.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace stillheap::csv {
namespace {

TEST(Csv, QuotesByTheRfc) {
  EXPECT_EQ(cell("plain"), "plain");
  EXPECT_EQ(cell("a, b"), "\"a, b\"");
  EXPECT_EQ(cell("6\" fold"), "\"6\"\" fold\"");
  EXPECT_EQ(cell("two\nlines"), "\"two\nlines\"");
  EXPECT_EQ(row({cell("a"), cell(""), cell("c")}), "a,,c\r\n");
}

TEST(Csv, KeepsSpreadsheetsFromRunningText) {
  EXPECT_EQ(cell("=1+1"), "'=1+1");
  EXPECT_EQ(cell("@cmd"), "'@cmd");
  EXPECT_EQ(cell("+49 30"), "'+49 30");
  EXPECT_EQ(cell("-12 degC"), "'-12 degC");
  EXPECT_EQ(cell("\tx"), "'\tx");
  EXPECT_EQ(cell("=HYPERLINK(\"x\",1)"), "\"'=HYPERLINK(\"\"x\"\",1)\"");
}

TEST(Csv, LeavesNumbersAlone) {
  EXPECT_EQ(cell("-12.5"), "-12.5");
  EXPECT_EQ(cell(-12.5), "-12.5");
  EXPECT_EQ(cell(1e-9), "1e-09");
  EXPECT_EQ(cell(NAN), "");
  EXPECT_EQ(cell(INFINITY), "");
}

}  // namespace
}  // namespace stillheap::csv
