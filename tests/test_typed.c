/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn/measure.h"

/* Numbers and quantities as people type them.  1 in = 25.4 mm and 1 US gal =
 * 3.785411784 L exactly (NIST SP 811, 2008, appendix B). */

#define NONE HUGE_VAL

Test(typed, numbers)
{
	static const struct {
		const char *text;
		double want;		/* NONE: it is none */
	} rows[] = {
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
		{ "9/4", 2.25 }, { "3\xc2\xbd", 3.5 },
		{ "3 \xe2\x85\x9e", 3.875 }, { "\xc2\xbc", 0.25 },
		{ "\xe2\x88\x92" "2", -2 }, { "1\xc2\xa0" "1/4", 1.25 },
		{ "1 000", NONE }, { "3..5", NONE }, { "7 in", NONE },
	};

	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		double x = -999;
		int is = tarn_typed_number(rows[i].text, &x);

		cr_expect(is == !isinf(rows[i].want), "'%s': %d", rows[i].text,
			  is);
		if (is && !isinf(rows[i].want))
			cr_expect(fabs(x - rows[i].want) <=
					  1e-15 * fabs(rows[i].want),
				  "'%s': %.17g", rows[i].text, x);
		cr_expect(is || (x < -998 && x > -1000), "'%s' changed it",
			  rows[i].text);
	}
}

static void quantity(const char *text, const char *unit, double want)
{
	struct tarn_error err = { 0 };
	double x = TARN_NAN;

	cr_expect(tarn_typed(text, unit, NULL, &x, &err) == TARN_OK, "'%s' %s",
		  text, err.text);
	cr_expect(fabs(x - want) <= 1e-14 * fabs(want), "'%s': %.17g", text, x);
}

Test(typed, quantities)
{
	quantity("39 in", "m", 39 * 0.0254);
	quantity("39 1/2 inches", "m", 39.5 * 0.0254);
	quantity("3 ft 6 in", "m", 42 * 0.0254);
	quantity("3ft 6 1/2in", "m", 42.5 * 0.0254);
	quantity("4'3\"", "m", 51 * 0.0254);
	quantity("4' 3\xc2\xbd\"", "m", 51.5 * 0.0254);
	quantity("4\xe2\x80\xb2" "3\xe2\x80\xb3", "m", 51 * 0.0254);
	quantity("4\xe2\x80\x99 3\xe2\x80\x9d", "m", 51 * 0.0254);
	quantity("6''", "m", 6 * 0.0254);
	quantity("1.2 m", "m", 1.2);
	quantity("1 m 20 cm", "m", 1.2);
	quantity("-2 in", "m", -2 * 0.0254);
	quantity("30 sq ft", "m2", 30 * 0.3048 * 0.3048);
	quantity("30 ft2", "m2", 30 * 0.3048 * 0.3048);
	quantity("2 m\xc2\xb2", "m2", 2);
	quantity("1 US gal", "m3", 3.785411784e-3);
	quantity("5 gallons", "m3", 5 * 3.785411784e-3);
	quantity("20 L", "m3", 0.02);
	quantity("2 min 30 s", "s", 150);
	quantity("155 W", "W", 155);
	quantity("3 ft", "mm", 914.4);
	quantity("50 %", "-", 0.5);
}

static void refused(const char *text, const char *unit, const char *bare,
		    const char *says)
{
	struct tarn_error err = { 0 };
	double x = 42;

	cr_expect(tarn_typed(text, unit, bare, &x, &err) == TARN_EFORMAT,
		  "'%s'", text);
	cr_expect(strstr(err.text, says) != NULL, "'%s' %s", text, err.text);
	cr_expect(x > 41 && x < 43, "left as it was");
}

Test(typed, what_is_no_quantity)
{
	struct tarn_error err = { 0 };
	double x = 42;

	refused("7", "m", NULL, "without a unit");
	refused("4 ft 3", "m", "m", "without a unit");
	refused("", "m", "m", "is no number");
	refused("ft", "m", "m", "is no number");
	refused("12 gal", "m", NULL, "is a volume, and a length is wanted");
	refused("3 ft 2 gal", "m", NULL, "adds a length and a volume");
	refused("3 furlong", "m", NULL, "'furlong' that is not known");
	refused("3 inhc", "m", NULL, "did you mean 'inch'?");
	refused("3 galons", "m3", NULL, "did you mean 'gal'?");
	refused("3 ft -2 in", "m", NULL, "is no number");
	refused("3 abcdefghijklmnopqrstuvwxyzabcdefghij", "m", NULL, "not known");
	cr_expect(tarn_typed("1 m", "furlong", NULL, &x, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "unit");
	cr_expect(tarn_typed("7", "m", "inch", &x, NULL) == TARN_OK);
	cr_expect(fabs(x - 7 * 0.0254) < 1e-15);
}
