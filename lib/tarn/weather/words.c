/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "heading.h"

/*
 * The words of header names that are known: English, German, French, Spanish,
 * Dutch, and what loggers and archives make of them.  Common use, no source.
 * Of words with an accent the plain letters stand here.  A meaning of nothing
 * is a word that says nothing of its own ("daily", "air").
 */

#define BIT(q) (1u << (q))
#define WATERS (BIT(Q_PAN) | BIT(Q_REFERENCE) | BIT(Q_OPEN_WATER) | \
		BIT(Q_EVAPORATION))

#define MEANS(q, list) { list, q, 0, NULL, 0, 0 }
#define VAGUE(q, list) { list, q, 0, NULL, 0, 1 }
#define BOTH(q, s, list) { list, q, s, NULL, 0, 0 }
#define SAYS(s, list) { list, Q_NONE, s, NULL, 0, 0 }
#define NOTHING(list) { list, Q_NONE, 0, NULL, 0, 0 }
#define NOT(why, except, list) { list, Q_NONE, 0, why, except, 0 }

static const struct meaning meanings[] = {
	/* ---- quantities, some with their statistic */
	MEANS(Q_TEMPERATURE,
	      "temperature temperatures temp temps tmp t ta tair airtemp airtc "
	      "airtf tas temperatur temperaturen temperatuur temperatura "
	      "temperaturas t2m 2t thermometer temper tempe"),
	BOTH(Q_TEMPERATURE, S_MIN,
	     "tmin tmn tn mint tasmin tnk mintemp tempmin tminimum t_low"),
	BOTH(Q_TEMPERATURE, S_MAX,
	     "tmax tmx tx maxt tasmax txk maxtemp tempmax tmaximum t_high"),
	BOTH(Q_TEMPERATURE, S_MEAN,
	     "tmean tavg tave tmed tg tmoy tmw tmk tmedia tgem meant"),
	MEANS(Q_DEWPOINT,
	      "dew dewpoint dew_point dewpt dewp dwpt dpt tdew tdp tdp_mean "
	      "taupunkt taupunkts tau point_de_rosee rosee punto_de_rocio "
	      "rocio dauwpunt dauwpunts d2m"),
	MEANS(Q_HUMIDITY,
	      "humidity humid hum rh relhum rel_hum relh rhum hurs rf "
	      "relative_feuchte feuchte luftfeuchte luftfeuchtigkeit "
	      "feuchtigkeit humidite humedad vochtigheid luchtvochtigheid rv "
	      "rh2m"),
	BOTH(Q_HUMIDITY, S_MIN, "rhmin rhmn rhn hursmin minrh"),
	BOTH(Q_HUMIDITY, S_MAX, "rhmax rhmx rhx hursmax maxrh"),
	BOTH(Q_HUMIDITY, S_MEAN, "rhmean rhavg rhave rhav"),
	MEANS(Q_VAPOUR,
	      "vapour_pressure vapor_pressure vapour vapor vp vap avp "
	      "vap_pres vappres vapourpressure vaporpressure dampfdruck "
	      "tension_de_vapeur pression_de_vapeur presion_de_vapor "
	      "dampdruk"),
	MEANS(Q_WIND,
	      "wind windspeed wspd wndspd wnd ws awnd wdsp windspd winds "
	      "windgeschwindigkeit windgeschw vent viento windsnelheid ff "
	      "sfcwind anemometer wind_run windrun windweg"),
	MEANS(Q_SUNSHINE,
	      "sunshine sun sunhours sunhrs bright_sunshine tsun sonne "
	      "sonnenschein sonnenscheindauer sonnenstunden ensoleillement "
	      "heures_de_soleil soleil horas_de_sol heliofania zonneschijn "
	      "zonneschijnduur zonuren zon"),
	MEANS(Q_SOLAR,
	      "solar solarradiation srad solrad sol_rad solar_rad radiation "
	      "rad shortwave short_wave sw swdown rsds rs rg ghi irradiance "
	      "irradiation ssrd globalstrahlung globale_strahlung strahlung "
	      "sonnenstrahlung globale_straling globalestraling straling "
	      "zonnestraling rayonnement radiacion glorad slr slrmj slrkw "
	      "slrw pyranometer"),
	MEANS(Q_RAIN,
	      "precipitation precipitations precip prcp prec preci pcp pcpn "
	      "ppt ppn ppt precipitacion precipitaciones niederschlag "
	      "niederschlags niederschlagshohe niederschlagsmenge neerslag "
	      "neerslagsom rr pluviometrie pluviometria rsk prectot "
	      "prectotcorr tp"),
	VAGUE(Q_RAIN,
	      "rain rainfall regen regenmenge regenfall pluie pluies lluvia "
	      "lluvias raingauge rain_gauge rainmm"),
	MEANS(Q_PAN,
	      "pan evap_pan pan_evaporation pan_evap class_a_pan evaporimeter"),
	MEANS(Q_REFERENCE,
	      "et0 eto et_0 etref et_ref reference et0_fao fao56 fao_56 "
	      "et_short_crop reference_et reference_evapotranspiration etos "
	      "short_crop referenzverdunstung referentieverdamping"),
	MEANS(Q_OPEN_WATER,
	      "open_water openwater lake_evaporation open_water_evaporation "
	      "lake_evap"),
	MEANS(Q_EVAPORATION,
	      "evaporation evap evapotranspiration et pet etp verdunstung "
	      "verdamping evaporacion evapotranspiracion epot"),
	MEANS(Q_PRESSURE,
	      "pressure press pres baro barometer barometric luftdruck druck "
	      "pression presion luchtdruk patm stp"),

	/* ---- statistics */
	SAYS(S_MIN,
	     "min minimum minimal minimale minima mini mn mnm low lowest "
	     "minimo minimos tiefst tiefste tiefstwert niedrigste laagste "
	     "least"),
	SAYS(S_MAX,
	     "max maximum maximal maximale maxima maxi mx high highest hi "
	     "maximo maximos hochst hochste hoechst hochstwert hoogste peak "
	     "most"),
	SAYS(S_MEAN,
	     "mean means avg average ave aver mittel mittelwert mittlere "
	     "tagesmittel moyen moyenne moy medio media med promedio "
	     "gemiddelde gemiddeld gem etmaalgemiddelde"),
	SAYS(S_SUM,
	     "sum total tot totals accumulated accumulation accum amount "
	     "summe tagessumme menge hohe somme cumul hauteur suma "
	     "acumulada acumulado som hoeveelheid dagsom etmaalsom totale"),

	/* ---- what makes a quantity another one */
	NOT("a gust", 0,
	    "gust gusts windgust boe boen windboe windboen spitzenboe "
	    "windspitze windspitzen rafale rafales racha rachas windstoot "
	    "windstoten stoot wgust fx peak_wind fxx fhx mxspd wsf2 wsf5"),
	NOT("a direction", 0,
	    "direction dir wdir wd winddir richtung windrichtung direccion "
	    "windrichting richting bearing wdf2 wdf5 ddvec"),
	NOT("of the ground", BIT(Q_REFERENCE),
	    "soil ground boden erdboden bodem suelo sol grass gras subsoil "
	    "tgrass tground tg_min"),
	NOT("of a surface", BIT(Q_PRESSURE) | BIT(Q_SOLAR) | BIT(Q_WIND) |
	    BIT(Q_RAIN) | WATERS,
	    "surface sfc skin oberflache road pavement leaf canopy"),
	NOT("snow or ice", 0,
	    "snow snowfall snowdepth schnee schneehohe neuschnee neige nieve "
	    "sneeuw snwd swe ice hail sleet hagel grele granizo"),
	NOT("a flag or a note", 0,
	    "flag flags quality qual qc qf source sources src quelle code "
	    "codes status mflag qflag sflag attributes attribute remark "
	    "remarks comment comments note notes symbol provisional number "
	    "completeness coverage calidad qualitat"),
	NOT("a count", BIT(Q_SUNSHINE),
	    "count obs_count hours hrs stunden heures horas uren days "
	    "duration dauer duree duracion duur"),
	NOT("a time", 0, "time uhrzeit zeit heure hora tijd occurrence tobs"),
	NOT("a felt temperature", 0,
	    "apparent feels feels_like heat_index heatindex humidex chill "
	    "wind_chill windchill gefuhlte ressentie sensacion thsw thw index "
	    "utci wbgt comfort"),
	NOT("of a wet bulb", 0, "wet_bulb wetbulb twet feuchttemperatur"),
	NOT("of the water", BIT(Q_OPEN_WATER) | BIT(Q_RAIN),
	    "water sea lake pool pond river wasser see mer agua mar zee sst "
	    "precipitable"),
	NOT("of a house or a device", 0,
	    "indoor inside interior innen binnen battery panel logger "
	    "internal greenhouse house casing attic"),
	NOT("another radiation", 0,
	    "longwave long_wave lw infrared uv uvi uvb thermal net netto par "
	    "ppfd diffuse diffus direct beam dni dhi extraterrestrial toa "
	    "clear_sky clearsky clr clrsky albedo reflected outgoing upward "
	    "upwelling terrestrial"),
	NOT("a figure about the values", 0,
	    "normal normals departure anomaly deviation abweichung std stdev "
	    "stddev variance percentile range amplitude spread difference "
	    "diff delta trend error uncertainty bias"),
	NOT("a deficit", 0, "deficit vpd saturation defizit"),
	NOT("not the relative humidity", BIT(Q_PRESSURE),
	    "specific absolute abs mixing"),
	NOT("a forecast", 0, "probability chance prob forecast predicted"),
	NOT("a rate", WATERS, "rate intensity intensitat intensite intensidad"),
	NOT("not of a day", 0,
	    "weekly monthly yearly annual event ytd mtd year_to_date "
	    "month_to_date running cumulative storm season seasonal "
	    "water_year"),
	NOT("at sea level", 0,
	    "slp mslp msl sea_level sealevel mean_sea_level qnh qff altimeter "
	    "pmsl psl prmsl reduced reduziert meereshohe niveau_de_la_mer "
	    "rel_pressure relative_pressure pressure_rel pressure_relative "
	    "rel_press relative_press rel_barometer barometer_rel "
	    "relativer_luftdruck luftdruck_rel luftdruck_relativ "
	    "pression_relative presion_relativa relatieve_luchtdruk"),
	NOT("of alfalfa", 0, "etr etr_asce tall alfalfa tall_crop etrs"),
	NOT("another quantity", 0,
	    "cloud clouds cloudiness bewolkung nebulosite nubosidad bewolking "
	    "visibility sicht visibilite zicht ceiling fog thunder lightning "
	    "frost weather description icon sunrise sunset moon daylight "
	    "daylength degree_days gdd hdd cdd heating cooling growing "
	    "evening density"),

	/* ---- words that say nothing of their own */
	NOTHING("air outdoor outside ambient daily day dly of the a at for "
		"from to obs observed value values data dry_bulb drybulb speed "
		"spd velocity geschwindigkeit vitesse velocidad snelheid "
		"relative relativa relatieve rel atmospheric atmospherique "
		"global globale globaal bright incoming downward downwards "
		"downwelling down dwn horizontal corrected station stn local "
		"height above_ground above_ground_level agl level luft tages "
		"taglich tag jour journaliere dag dia diaria diario de la le "
		"les du des el los del di van der die das den von "
		"zu am im pro per und and et_ met lst utc gmt uhr fao penman "
		"monteith asce pm crop scalar vector resultant all_sky allsky "
		"sky bei auf en op sensor gauge liquid equivalent "
		"rain_and_snow melted_snow near_surface surface_air lucht "
		"aire dagelijkse etmaal cup point punkt punkts pt "
		"temperaturmittel 24hr 24hrs 24h"),
};

#define COUNT (sizeof meanings / sizeof meanings[0])

/* Is a word in a list with blanks between?  As tn_text_listed, and faster in
 * long lists; 'word' ends in a zero. */
static int is_in(const char *list, const char *word, size_t length)
{
	for (const char *at = list; (at = strstr(at, word)) != NULL;
	     at += length)
		if ((at == list || at[-1] == ' ') &&
		    (at[length] == ' ' || !at[length]))
			return 1;
	return 0;
}

const struct meaning *tn_word(struct text word)
{
	char copy[96];

	if (word.length == 0 || word.length >= sizeof copy)
		return NULL;
	memcpy(copy, word.at, word.length);
	copy[word.length] = '\0';
	for (size_t i = 0; i < COUNT; i++)
		if (is_in(meanings[i].words, copy, word.length))
			return &meanings[i];
	return NULL;
}

const char *tn_word_near(struct text word, char out[24],
			 const struct meaning **meaning)
{
	char want[24], have[24];
	int best = word.length < 5 ? 2 : 3;

	*meaning = NULL;
	if (word.length < 4)
		return NULL;
	tn_text_show(want, sizeof want, word);
	for (size_t i = 0; i < COUNT && meanings[i].quantity; i++) {
		const char *list = meanings[i].words;

		for (struct text known = tn_text_word(&list);
		     known.length > 0; known = tn_text_word(&list)) {
			int far;

			if (known.length < 4)
				continue;
			tn_text_show(have, sizeof have, known);
			far = tarn_name_distance(want, have);
			if (far < best) {
				best = far;
				*meaning = &meanings[i];
				strcpy(out, have);
			}
		}
	}
	return *meaning ? out : NULL;
}
