/* SPDX-License-Identifier: MIT */
#include "web.h"

/* The bucket test: web_pair(), web_set("pair" | "off" | "on", ...),
 * web_pair_result(). */
WEB(web_pair) void web_pair(void);
WEB(web_pair) void web_pair(void)
{
	web.pair = tarn_pair_default();
}

/* NULL if it fails. */
WEB(web_pair_result) const struct tarn_pair_result *web_pair_result(void);
WEB(web_pair_result) const struct tarn_pair_result *web_pair_result(void)
{
	static struct tarn_pair_result result;

	if (tarn_pair_test(NULL, &web.pond, &web.pair, &result, web_error()) ==
	    TARN_OK)
		return &result;
	web_fail(NULL);
	return NULL;
}

/* Loss that the test is to find [mm/d]. */
WEB(web_matters) double web_matters(void);
WEB(web_matters) double web_matters(void)
{
	return web.pair.matters_mm_d;
}

WEB(web_verdict) const char *web_verdict(int verdict);
WEB(web_verdict) const char *web_verdict(int verdict)
{
	return tarn_verdict_text((enum tarn_verdict)verdict);
}

/* Hours until a loss is found by four readings, pond and bucket. */
WEB(web_pair_hours) double web_pair_hours(double loss_mm_d, double spread_mm_d);
WEB(web_pair_hours) double web_pair_hours(double loss_mm_d, double spread_mm_d)
{
	return tarn_pair_hours(4, tarn_pair_default().reading_sd_m, loss_mm_d,
			       spread_mm_d);
}

/* Splash that the last test means, m3/s; NULL without both halves. */
WEB(web_splash) const struct tarn_estimate *web_splash(void);
WEB(web_splash) const struct tarn_estimate *web_splash(void)
{
	static struct tarn_estimate splash;
	const struct tarn_pair_result *r = web_pair_result();

	if (!r || !r->has_off || !r->has_on)
		return NULL;
	tarn_pair_splash(r, &splash);
	return &splash;
}
