/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn/measure.h"

/* Numbers and quantities as people type them.  1 in = 25.4 mm and 1 US gal =
 * 3.785411784 L exactly (NIST SP 811, 2008, appendix B). */

static void number(const char *text, double want)
{
	double x = TARN_NAN;

	cr_expect(tarn_typed_number(text, &x), "'%s'", text);
	cr_expect(fabs(x - want) <= 1e-15 * fabs(want), "'%s': %.17g", text, x);
}

Test(typed, numbers)
{
	number("7", 7);
	number(" 3.5 ", 3.5);
	number(".5", 0.5);
	number("7/8", 0.875);
	number("9/4", 2.25);
	number("3 1/2", 3.5);
	number("3-1/2", 3.5);
	number("-3 1/2", -3.5);
	number("+2", 2);
	number("3\xc2\xbd", 3.5);
	number("3 \xe2\x85\x9e", 3.875);
	number("\xc2\xbc", 0.25);
	number("\xe2\x88\x92" "2", -2);
	number("1\xc2\xa0" "1/4", 1.25);
}

Test(typed, what_is_no_number)
{
	static const char *const none[] = {
		"", " ", "-", "abc", "3,5", "1 000", "3 5", "3 9/4", "3/0",
		"1/", "/2", "1e3", "inf", "nan", "0x10", "3.5 1/2", "3..5", "--2",
		"7 in", "11111111111111111111111111111111111111111111111111",
	};
	double x = 42;

	for (size_t i = 0; i < sizeof none / sizeof *none; i++)
		cr_expect(!tarn_typed_number(none[i], &x), "'%s'", none[i]);
	cr_expect(x > 41 && x < 43, "left as it was");
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
