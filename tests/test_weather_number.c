/* SPDX-License-Identifier: MIT */
#include <float.h>

#include "published.h"
#include "tarn/weather/internal.h"

static uint64_t seed = 20240229;

static unsigned random_below(unsigned n)
{
	seed = seed * 6364136223846793005u + 1442695040888963407u;
	return (unsigned)((seed >> 33) % n);
}

/* A decimal of up to 'digits' digits around a point, sign and exponent at
 * times. */
static void random_decimal(char *out, int digits, int exponents)
{
	int before = 1 + (int)random_below((unsigned)digits);
	int after = (int)random_below((unsigned)digits + 1);
	char *s = out;

	if (random_below(3) == 0)
		*s++ = random_below(2) ? '-' : '+';
	for (int i = 0; i < before; i++)
		*s++ = (char)('0' + random_below(10));
	if (after > 0)
		*s++ = '.';
	for (int i = 0; i < after; i++)
		*s++ = (char)('0' + random_below(10));
	*s = '\0';
	if (exponents && random_below(2))
		sprintf(s, "e%d", (int)random_below(640) - 330);
}

static int agrees(const char *text)
{
	double want = strtod(text, NULL), got = 0;
	enum number_result result = tn_number(tn_text(text), &got);

	if (isinf(want))
		return result == NUMBER_HUGE;
	return result == NUMBER_OK && memcmp(&got, &want, sizeof got) == 0;
}

/* The C library of the build rounds correctly; tests run in the C locale. */
Test(weather_number, agrees_with_strtod)
{
	static const int digits[] = { 2, 4, 8, 10, 17, 29 };
	char text[100];
	int bad = 0;

	for (size_t k = 0; k < sizeof digits / sizeof digits[0]; k++)
		for (int i = 0; i < 100000 && bad < 10; i++) {
			random_decimal(text, digits[k], i % 2);
			if (!agrees(text)) {
				bad++;
				cr_expect(0, "%s", text);
			}
		}
	cr_expect(bad == 0);
}

/* The shortest decimals of random doubles come back to the bit. */
Test(weather_number, seventeen_digits_come_back)
{
	int bad = 0;

	for (int i = 0; i < 100000; i++) {
		uint64_t bits = (uint64_t)random_below(1u << 31) << 33 ^
				(uint64_t)random_below(1u << 31) << 11 ^
				random_below(1u << 11);
		double x, got;
		char text[40];

		memcpy(&x, &bits, sizeof x);
		if (isnan(x) || isinf(x))
			continue;
		snprintf(text, sizeof text, "%.17g", x);
		if (tn_number(tn_text(text), &got) != NUMBER_OK ||
		    memcmp(&got, &x, sizeof x) != 0)
			bad++;
	}
	cr_expect(bad == 0, "%d", bad);
}

Test(weather_number, edges)
{
	static const char *const texts[] = {
		"0", "-0", "00012", "1.", ".5", "-.5", "1e5", "1E+05", "1e-5",
		"999999999999999", "9007199254740993", "9007199254740992.5",
		"0.000000000000001", "123456789012345", "1234567890123456789",
		"1e22", "1e23", "8.5e22", "1e308", "4.9e-324", "2.4e-324",
		"2.2250738585072011e-308", "1.7976931348623157e308",
		"0.1", "000000000000000000000000000001.5",
		"0.00000000000000000000000000000000000000000000000000000001",
		"1e-99999", "0e99999",
	};

	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
		cr_expect(agrees(texts[i]), "%s", texts[i]);
	cr_expect(agrees("1e309"));
	cr_expect(agrees("1e99999"));
}

Test(weather_number, refused)
{
	static const char *const texts[] = {
		"", " ", "+", "-", ".", "-.", "e5", "1e", "1e+", "1.5.5",
		"1,5", "1 ", " 1", "1x", "0x10", "nan", "NaN", "inf", "-inf",
		"infinity", "1e5.5", "--1", "1-", "\xef\xbc\x91", "1\n",
	};
	char sixty_one[62];
	double x;

	memset(sixty_one, '7', 61);
	sixty_one[61] = '\0';

	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
		cr_expect(tn_number(tn_text(texts[i]), &x) == NUMBER_NONE,
			  "'%s'", texts[i]);
	cr_expect(tn_number(tn_text(sixty_one), &x) == NUMBER_NONE);
	/* a NUL is no end */
	cr_expect(tn_number((struct text){ "1\0002", 3 }, &x) ==
		  NUMBER_NONE);
}

/* ---- units ----------------------------------------------------------- */

static double convert(enum tarn_column c, const char *name, double x)
{
	const struct tarn_weather_unit *u = tarn_weather_unit(c, name);

	return u ? (x + u->add) * u->multiply / u->divide : TARN_NAN;
}

/* NIST SP 811 (2008) appendix B.8, from memory; half the last printed digit.
 * W/m2 and kWh/m2 to MJ/m2 are definitions, as are the scales of
 * temperature. */
Test(weather_units, published)
{
	static const struct {
		enum tarn_column c;
		const char *unit;
		double x, want, tol;
	} rows[] = {
		{ TARN_TMIN, "F", 212, 100, 1e-13 },
		{ TARN_TMIN, "K", 273.15, 0, 0 },
		{ TARN_RAIN, "inch", 1, 25.4, 0 },
		{ TARN_WIND, "mph", 1, 0.44704, 1e-16 },
		{ TARN_WIND, "knots", 1, 0.5144444, 5e-8 },
		{ TARN_WIND, "km/h", 3.6, 1, 0 },
		{ TARN_WIND, "km/d", 86.4, 1, 0 },
		{ TARN_WIND, "mi/d", 24, 0.44704, 1e-16 },
		{ TARN_PRESSURE, "inHg", 1, 3.386389, 5e-7 },
		{ TARN_PRESSURE, "mmHg", 1, 0.1333224, 5e-8 },
		{ TARN_PRESSURE, "mbar", 1, 0.1, 0 },
		{ TARN_SOLAR, "langley", 1, 0.04184, 1e-17 },
		{ TARN_SOLAR, "kWh/m2", 1, 3.6, 0 },
		{ TARN_SOLAR, "W/m2", 1, 0.0864, 1e-17 },
		{ TARN_SOLAR, "J/cm2", 100, 1, 0 },
		{ TARN_SUNSHINE, "min", 60, 1, 0 },
		{ TARN_RH_MIN, "fraction", 0.5, 50, 0 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		double got = convert(rows[i].c, rows[i].unit, rows[i].x);

		recalled("NIST SP 811 (2008) appendix B", rows[i].unit, got,
			 rows[i].want, rows[i].tol);
	}
}

Test(weather_units, spellings)
{
	static const struct {
		enum tarn_column c;
		const char *as, *name;	/* NULL: no such unit */
	} rows[] = {
		{ TARN_TMAX, "\xc2\xb0""C", "C" },	/* degree sign */
		{ TARN_TMAX, "\xc3\x82\xc2\xb0""F", "F" },	/* mangled */
		{ TARN_TMAX, "\xb0""C", "C" },		/* Latin-1 */
		{ TARN_SOLAR, "MJ/m\xc2\xb2", "MJ/m2" },
		{ TARN_SOLAR, "MJ/m^2/day", "MJ/m2" },
		{ TARN_SOLAR, "kW-hr/m^2/day", "kWh/m2" },
		{ TARN_SOLAR, "Ly/day", "langley" },
		{ TARN_SOLAR, "W/sq.m", "W/m2" },
		{ TARN_VAPOUR, "mBars", "mbar" },
		{ TARN_RAIN, "mm/day", "mm" },
		{ TARN_RAIN, "in", "inch" },
		{ TARN_WIND, "km/day", "km/d" },
		{ TARN_WIND, "MPH", "mph" },
		{ TARN_RAIN, "C", NULL },
		{ TARN_TMIN, "mm", NULL },
		{ TARN_TMIN, "", NULL },
		{ TARN_TMIN, "\xc2\xb0", NULL },
		{ TARN_WIND, "m", NULL },
		{ TARN_RAIN, "a very long unit that nobody has ever heard of",
		  NULL },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct tarn_weather_unit *u =
			tarn_weather_unit(rows[i].c, rows[i].as);

		cr_expect(rows[i].name ? u && strcmp(u->name, rows[i].name) == 0
				       : !u, "%s", rows[i].as);
	}
}

Test(weather_units, table)
{
	size_t count;
	const struct tarn_weather_unit *u = tarn_weather_units(&count);
	char list[200];

	cr_expect(count > 25);
	for (size_t i = 0; i < count; i++)
		cr_expect(tarn_weather_unit(u[i].like, u[i].name) == &u[i],
			  "%s", u[i].name);
	tarn_weather_unit_list(TARN_DEWPOINT, list, sizeof list);
	cr_expect_str_eq(list, "C, F, K");
	tarn_weather_unit_list(TARN_WIND, list, 10);
	cr_expect(strlen(list) == 9);
}

/* ---- dates ----------------------------------------------------------- */

Test(weather_dates, formats)
{
	static const struct {
		const char *text, *format, *want;	/* NULL: refused */
		int hour, minute;
	} rows[] = {
		{ "2015-02-28", "%Y-%m-%d", "2015-02-28", 0, 0 },
		{ "2015-2-8", "%Y-%m-%d", "2015-02-08", 0, 0 },
		{ "2015-02-31", "%Y-%m-%d", NULL, 0, 0 },
		{ "2015-02-28 ", "%Y-%m-%d", NULL, 0, 0 },
		{ "15-02-28", "%Y-%m-%d", NULL, 0, 0 },
		{ "2015/02/28", "%Y/%m/%d", "2015-02-28", 0, 0 },
		{ "2/28/2015", "%m/%d/%Y", "2015-02-28", 0, 0 },
		{ "28.02.2015", "%d.%m.%Y", "2015-02-28", 0, 0 },
		{ "28/2/2015", "%m/%d/%Y", NULL, 0, 0 },
		{ "20150228", "%Y%m%d", "2015-02-28", 0, 0 },
		{ "2015228", "%Y%m%d", NULL, 0, 0 },
		{ "201502281", "%Y%m%d", NULL, 0, 0 },
		{ "2015059", "%Y%j", "2015-02-28", 0, 0 },
		{ "2016-366", "%Y-%j", "2016-12-31", 0, 0 },
		{ "2015-366", "%Y-%j", NULL, 0, 0 },
		{ "2015-0", "%Y-%j", NULL, 0, 0 },
		{ "28-Feb-2015", "%d-%b-%Y", "2015-02-28", 0, 0 },
		{ "28-FEB-2015", "%d-%b-%Y", "2015-02-28", 0, 0 },
		{ "28-Fev-2015", "%d-%b-%Y", "2015-02-28", 0, 0 },
		{ "28-F\303\251vrier-2015", "%d-%b-%Y", "2015-02-28", 0, 0 },
		{ "28-Fob-2015", "%d-%b-%Y", NULL, 0, 0 },
		{ "5. M\303\244rz 2015", "%d. %b %Y", "2015-03-05", 0, 0 },
		{ "Jan. 5, 2015", "%b %d, %Y", "2015-01-05", 0, 0 },
		{ "Mon, 05 Jan 2015", "%a, %d %b %Y", "2015-01-05", 0, 0 },
		{ "28/02/68", "%d/%m/%y", "2068-02-28", 0, 0 },
		{ "28/02/69", "%d/%m/%y", "1969-02-28", 0, 0 },
		{ "28/02/5", "%d/%m/%y", NULL, 0, 0 },
		{ "2/28/2015 1:05 PM", "%m/%d/%Y %H:%M %p", "2015-02-28", 13,
		  5 },
		{ "2/28/2015 12:05 a.m.", "%m/%d/%Y %H:%M %p", "2015-02-28", 0,
		  5 },
		{ "2/28/2015 13:05 PM", "%m/%d/%Y %H:%M %p", NULL, 0, 0 },
		{ "2015-02-28T01:00Z", "%Y-%m-%dT%H:%M%z", "2015-02-28", 1, 0 },
		{ "2015-02-28T01:00:00.000+05:30", "%Y-%m-%dT%H:%M:%S%z",
		  "2015-02-28", 1, 0 },
		{ "2015-02-28T01:00+19:00", "%Y-%m-%dT%H:%M%z", NULL, 0, 0 },
		{ "2015-02-28T01:00X", "%Y-%m-%dT%H:%M%z", NULL, 0, 0 },
		{ "28-Fe", "%d-%b-%Y", NULL, 0, 0 },
		{ "2015-02-28T13:45", "%Y-%m-%dT%H:%M", "2015-02-28", 13, 45 },
		{ "2015-02-28 24:00:00", "%Y-%m-%d %H:%M:%S", "2015-02-28", 24,
		  0 },
		{ "2015-02-28 24:01", "%Y-%m-%d %H:%M", NULL, 0, 0 },
		{ "2015-02-28 12:60", "%Y-%m-%d %H:%M", NULL, 0, 0 },
		{ "2015-02-28T00:00+01:00", "%Y-%m-%d%*", "2015-02-28", 0, 0 },
		{ "2015-02-28", "%Y-%m-%d%*", "2015-02-28", 0, 0 },
		{ "1799-12-31", "%Y-%m-%d", NULL, 0, 0 },
		{ "2200-12-31", "%Y-%m-%d", "2200-12-31", 0, 0 },
		{ "", "%Y-%m-%d", NULL, 0, 0 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct stamp t;
		int ok = tn_date_read(tn_text(rows[i].text),
				      rows[i].format, &t) == DATE_OK;

		cr_expect(ok == (rows[i].want != NULL), "%s as %s",
			  rows[i].text, rows[i].format);
		if (ok && rows[i].want)
			cr_expect(t.day == tarn_day_parse(rows[i].want) &&
					  t.hour == rows[i].hour &&
					  t.minute == rows[i].minute,
				  "%s as %s", rows[i].text, rows[i].format);
		cr_expect(tn_date_format_ok(rows[i].format), "%s",
			  rows[i].format);
	}
}

Test(weather_dates, formats_refused)
{
	static const char *const formats[] = {
		"", "%Y", "%Y-%m", "%m-%d", "%Y-%m-%d-%j", "%Y-%Y-%m-%d",
		"%Y-%m-%b-%d", "%Y-%m-%d %S%S", "%Y-%m-%q", "%Y-%m-%", "%",
		"%Y-%*-%m-%d", "%Y%*", "%d-%*",
	};

	for (size_t i = 0; i < sizeof formats / sizeof formats[0]; i++)
		cr_expect(!tn_date_format_ok(formats[i]), "'%s'",
			  formats[i]);
}

/* ---- text ------------------------------------------------------------ */

Test(weather_text, words_and_cuts)
{
	char out[6];

	cr_expect(tn_text_listed(tn_text("b"), " a  b c"));
	cr_expect(!tn_text_listed(tn_text("ab"), "a b abc"));
	cr_expect(!tn_text_listed(tn_text(""), "a b"));
	cr_expect_str_eq(tn_text_show(out, sizeof out, tn_text("a\tb")),
			 "a?b");
	/* no half of a UTF-8 character */
	cr_expect_str_eq(tn_text_show(out, sizeof out,
				      tn_text("abcd\xc2\xb0")), "abcd");
}
