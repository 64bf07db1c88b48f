/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "../lib/tarn/leak/sheet.h"

/* What people write into the cells of a log: numbers off a ruler, hours, dates. */

#define NONE HUGE_VAL
#define COUNT(a) (sizeof (a) / sizeof (a)[0])

struct cell {
	const char *text;
	double want;	/* NONE: it is none */
};

static void check_cells(const struct cell *c, size_t count,
			int (*read)(const char *, double *))
{
	for (size_t i = 0; i < count; i++) {
		double x = -999;
		int is = read(c[i].text, &x);

		cr_expect(is == !isinf(c[i].want), "'%s': %d", c[i].text, is);
		if (is && !isinf(c[i].want))
			cr_expect(fabs(x - c[i].want) < 1e-12, "'%s': %.15g",
				  c[i].text, x);
		cr_expect(is || (x < -998 && x > -1000), "'%s' changed it",
			  c[i].text);
	}
}

Test(leak_cells, numbers)
{
	static const struct cell cells[] = {
		{ "0", 0 }, { "3", 3 }, { "3.5", 3.5 }, { ".5", 0.5 },
		{ "5.", 5 }, { "-3.25", -3.25 }, { "+3", 3 }, { " 3 ", 3 },
		{ "\t3\t", 3 }, { "9", 9 }, { "1/2", 0.5 }, { "3/4", 0.75 },
		{ "3 1/2", 3.5 }, { "3-1/2", 3.5 }, { "3  1/2", 3.5 },
		{ "3- 1/2", 3.5 }, { "-3 1/2", -3.5 }, { "11/8", 1.375 },
		{ "3 0/2", 3 },
		/* 15 digits are exact, 16 are not taken */
		{ "123456789012345", 123456789012345.0 },
		{ "1234567890123456", NONE }, { "0.12345678901234", 0.12345678901234 },
		{ "1.123456789012345", NONE }, { "3/1234567890123456", NONE },
		{ "3 1/1234567890123456", NONE }, { "3 1234567890123456/2", NONE },
		{ "", NONE }, { " ", NONE }, { "-", NONE }, { "+", NONE },
		{ ".", NONE }, { "a", NONE }, { "3a", NONE }, { "3 a", NONE },
		{ "3 1", NONE }, { "3-1", NONE }, { "3 2/2", NONE },
		{ "3 3/2", NONE }, { "1/0", NONE }, { "3 1/0", NONE },
		{ "3 /2", NONE }, { "/2", NONE }, { "3/", NONE }, { "1e3", NONE },
		{ "3,5", NONE }, { "--3", NONE }, { "3 -", NONE }, { "inf", NONE },
		{ "nan", NONE }, { "0x10", NONE }, { "3.5.1", NONE },
		{ "3.5 1/2", NONE }, { ":", NONE }, { "3 1/2 1/2", NONE },
	};

	check_cells(cells, COUNT(cells), tn_sheet_number);
}

Test(leak_cells, hours)
{
	static const struct cell cells[] = {
		{ "7:30", 7.5 }, { "07:30", 7.5 }, { "0:00", 0 }, { "24:00", 24 },
		{ "19:30:00", 19.5 }, { "23:59:59", 24 - 1 / 3600.0 },
		{ "12:00 am", 0 }, { "12:30 AM", 0.5 }, { "12:00 pm", 12 },
		{ "7 am", 7 }, { "7pm", 19 }, { "7:15 Pm", 19.25 }, { "1 pm", 13 },
		{ "11:59 pm", 23 + 59 / 60.0 }, { " 7:30 ", 7.5 },
		{ "7:30 pm ", 19.5 }, { "7:5", 7 + 5 / 60.0 },
		{ "7", NONE }, { "", NONE }, { "24:01", NONE }, { "25:00", NONE },
		{ "7:60", NONE }, { "7:59:60", NONE }, { "0:30 am", NONE },
		{ "13:00 pm", NONE }, { "7:30 p", NONE }, { "7:30 m", NONE },
		{ "7:30 pmx", NONE }, { "7:30 xm", NONE }, { "007:30", NONE },
		{ "7:030", NONE }, { ":30", NONE }, { "7:", NONE },
		{ "7:30:15:10", NONE }, { "7.30", NONE }, { "a", NONE },
		{ "-7:30", NONE }, { "7:30 am pm", NONE },
	};

	check_cells(cells, COUNT(cells), tn_sheet_hour);
}

Test(leak_cells, dates)
{
	static const struct {
		const char *text, *order;
		int year, month, day;	/* year 0: none */
		const char *rest;
	} rows[] = {
		{ "2024-02-29", "ymd", 2024, 2, 29, "" },
		{ "2023-02-29", "ymd", 0, 0, 0, "" },
		{ "2024/6/3", "ymd", 2024, 6, 3, "" },
		{ "6/3/2024", "mdy", 2024, 6, 3, "" },
		{ "3.6.2024", "dmy", 2024, 6, 3, "" },
		{ " 2024-06-03 7:30", "ymd", 2024, 6, 3, "7:30" },
		{ "2024-06-03T07:30", "ymd", 2024, 6, 3, "07:30" },
		{ "2024-06-03 T", "ymd", 2024, 6, 3, "T" },
		{ "12/31/2024", "mdy", 2024, 12, 31, "" },
		{ "13/31/2024", "mdy", 0, 0, 0, "" },
		{ "12/32/2024", "mdy", 0, 0, 0, "" },
		{ "0/1/2024", "mdy", 0, 0, 0, "" },
		{ "12/31/24", "mdy", 0, 0, 0, "" },
		{ "24-12-31", "ymd", 0, 0, 0, "" },
		{ "2024-12", "ymd", 0, 0, 0, "" },
		{ "2024-1231", "ymd", 0, 0, 0, "" },
		{ "2024-06/03", "ymd", 0, 0, 0, "" },
		{ "2024 06 03", "ymd", 0, 0, 0, "" },
		{ "20240603", "ymd", 0, 0, 0, "" },
		{ "2024--03", "ymd", 0, 0, 0, "" },
		{ "2024-006-03", "ymd", 2024, 6, 3, "" },
		{ "2024-0006-03", "ymd", 0, 0, 0, "" },
		{ "02024-06-03", "ymd", 0, 0, 0, "" },
		{ "1234567890123456-06-03", "ymd", 0, 0, 0, "" },
		{ "", "ymd", 0, 0, 0, "" }, { "June 3", "mdy", 0, 0, 0, "" },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		const char *rest = NULL;
		long day = 0;
		int is = tn_sheet_date(rows[i].text, rows[i].order, &day, &rest);

		cr_expect(is == (rows[i].year > 0), "'%s': %d", rows[i].text, is);
		if (!is || rows[i].year == 0)
			continue;
		cr_expect(day == tarn_day(rows[i].year, rows[i].month,
					  rows[i].day), "'%s'", rows[i].text);
		cr_expect_str_eq(rest, rows[i].rest, "'%s'", rows[i].text);
	}
}
