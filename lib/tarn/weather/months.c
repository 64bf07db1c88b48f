/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * Names of months in English, German, French, Spanish and Dutch: their letters
 * of ASCII, as "mrz" for the German name with its umlaut and "aot" for the
 * French one with its circumflex, and as they are typed without accents.
 */
static const char *const months[12] = {
	"january januar janvier enero januari jaenner jnner",
	"february februar fvrier fevrier febrero februari feber fv",
	"march mrz maerz mars marzo maart mrt",
	"april avril abril",
	"may mai mayo mei",
	"june juni juin junio",
	"july juli juillet julio",
	"august aot aout agosto augustus",
	"september septembre septiembre setiembre",
	"october oktober octobre octubre",
	"november novembre noviembre",
	"december dezember dcembre decembre diciembre dc",
};

/* The letters of ASCII, small. */
static size_t letters(struct text t, char out[16])
{
	size_t n = 0;

	for (size_t i = 0; i < t.length && n < 15; i++) {
		char c = t.at[i];

		if (c >= 'A' && c <= 'Z')
			c = (char)(c + ('a' - 'A'));
		if (c >= 'a' && c <= 'z')
			out[n++] = c;
	}
	out[n] = '\0';
	return n;
}

/* Does a name of the list begin with these letters?  Two letters must be the
 * whole name. */
static int begins_one(const char *list, const char *word, size_t n)
{
	for (;;) {
		struct text name = tn_text_word(&list);

		if (name.length == 0)
			return 0;
		if (name.length >= n && memcmp(name.at, word, n) == 0 &&
		    (n >= 3 || name.length == n))
			return 1;
	}
}

int tn_month_named(struct text t)
{
	char word[16];
	size_t n = letters(t, word);
	int found = 0;

	if (n < 2 || n == 15)
		return 0;
	for (int m = 0; m < 12; m++)
		if (begins_one(months[m], word, n)) {
			if (found)
				return 0;	/* "jui": June or July */
			found = m + 1;
		}
	return found;
}
