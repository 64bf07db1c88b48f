/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

#define TOTAL_DAYS_MAX 400	/* days in one rain total */
#define TOTAL_MM_MAX 5000

/*
 * Folds the scale into the unit: SI = (x + add) * multiply / divide.  A scale
 * of 0.1 divides by 10, so that 34 tenths are the same number as 3.4.
 */
static void fold_scale(struct slot *slot, double scale)
{
	double n = floor(1 / scale + 0.5);

	if (scale < 1 && scale > 0 && 1 / n == scale) {
		slot->add *= n;
		slot->divide *= n;
	} else {
		slot->add /= scale;
		slot->multiply *= scale;
	}
}

static enum tarn_csv_combine combine_of(const struct tarn_csv_column *column,
					enum tarn_column c, int power)
{
	if (column->combine != TARN_COMBINE_DEFAULT)
		return column->combine;
	switch (c) {
	case TARN_TMIN:
	case TARN_RH_MIN: return TARN_COMBINE_MIN;
	case TARN_TMAX:
	case TARN_RH_MAX: return TARN_COMBINE_MAX;
	case TARN_SUNSHINE:
	case TARN_RAIN:
	case TARN_PAN:
	case TARN_REFERENCE:
	case TARN_OPEN_WATER: return TARN_COMBINE_SUM;
	case TARN_SOLAR: return power ? TARN_COMBINE_MEAN : TARN_COMBINE_SUM;
	default: return TARN_COMBINE_MEAN;
	}
}

static enum tarn_status set_unit(struct slot *slot, enum tarn_column c,
				 const struct tarn_csv_column *column,
				 struct role role, struct tarn_error *err)
{
	const struct tarn_weather_unit *unit =
		tarn_weather_unit(c, column->unit);
	double scale = isnan(column->scale) ? 1 : column->scale;
	char list[120];

	tarn_weather_unit_list(c, list, sizeof list);
	if (!column->unit[0])
		return tarn_settled(err, TARN_SETTLE_UNIT, NULL, tn_role_fail(
			err, TARN_EARG, role,
				    "is not known, the file does not say it: "
				    "choose one of %s", list));
	if (!unit)
		return tarn_settled(err, TARN_SETTLE_UNIT, NULL, tn_role_fail(
			err, TARN_EARG, role,
				    "\"%s\" does not fit: choose one of %s",
				    column->unit, list));
	if (!isfinite(scale) || scale <= 0)
		return tn_role_fail(err, TARN_EARG, role,
				    "has a scale that is not above 0");
	slot->unit = unit->name;
	slot->add = unit->add;
	slot->multiply = unit->multiply;
	slot->divide = unit->divide;
	fold_scale(slot, scale);
	slot->convert = slot->add < 0 || slot->add > 0 ||
			slot->multiply < slot->divide ||
			slot->multiply > slot->divide;
	slot->combine = combine_of(column, c, unit->power);
	return TARN_OK;
}

static enum tarn_status set_place(struct scheme *scheme, struct slot *slot,
				  const struct tarn_csv_place *place,
				  const struct header *h, struct role role,
				  struct tarn_error *err)
{
	if (scheme->element < 0)
		return tn_place_find(h, place, role, &slot->field, err);
	slot->field = scheme->value;
	if (!place->name[0] && place->index > 0)
		return tn_role_fail(err, TARN_EARG, role,
				    "must be named by its element in the "
				    "long form");
	strcpy(slot->element, place->name);
	if (!place->name[0])
		slot->field = -1;
	return TARN_OK;
}

/* Adds a slot for a column if the map has a place for it. */
static enum tarn_status add_slot(struct scheme *scheme, int id,
				 const struct tarn_csv_column *column,
				 const struct header *h, const char *name,
				 struct tarn_error *err)
{
	enum tarn_column c = id < TARN_COLUMNS ? (enum tarn_column)id
					       : TARN_RAIN;
	const struct tarn_column_info *info = tarn_column_info(c);
	struct role role = { "columns.", name }, unit = { "units.", name };
	struct role flag = { "flag of ", name };
	struct slot *slot = &scheme->slot[scheme->slots];
	enum tarn_status status;

	memset(slot, 0, sizeof *slot);
	status = set_place(scheme, slot, &column->place, h, role, err);
	if (status != TARN_OK || slot->field < 0)
		return status;
	slot->id = id;
	slot->lo = info->lo;
	slot->hi = id == SLOT_TOTAL ? TOTAL_MM_MAX : info->hi;
	slot->reject = column->flag.reject;
	slot->quiet = column->flag.quiet;
	slot->flag_part = column->flag.part;
	status = set_unit(slot, c, column, unit, err);
	if (status == TARN_OK)
		status = tn_place_find(h, &column->flag.place, flag,
				       &slot->flag_field, err);
	if (status == TARN_OK)
		scheme->slots++;
	return status;
}

static enum tarn_status add_total_days(struct scheme *scheme,
				       const struct tarn_csv_map *map,
				       const struct header *h,
				       struct tarn_error *err)
{
	struct role role = { "", "total_days" };
	struct slot *slot = &scheme->slot[scheme->slots];
	enum tarn_status status;

	memset(slot, 0, sizeof *slot);
	status = set_place(scheme, slot, &map->total_days, h, role, err);
	if (status != TARN_OK || slot->field < 0)
		return status;
	slot->id = SLOT_TOTAL_DAYS;
	slot->lo = 1;
	slot->hi = TOTAL_DAYS_MAX;
	slot->unit = "days";
	slot->multiply = slot->divide = 1;
	slot->flag_field = -1;
	slot->reject = slot->quiet = "";
	scheme->slots++;
	return TARN_OK;
}

static enum tarn_status add_slots(struct scheme *scheme,
				  const struct tarn_csv_map *map,
				  const struct header *h,
				  struct tarn_error *err)
{
	struct tarn_csv_column total = map->total;
	enum tarn_status status = TARN_OK;
	struct role none = { "columns", "" };

	for (int c = 0; c < TARN_COLUMNS && status == TARN_OK; c++)
		status = add_slot(scheme, c, &map->column[c], h,
				  tarn_column_info((enum tarn_column)c)->name,
				  err);
	if (status == TARN_OK && scheme->slots == 0)
		return tn_role_fail(err, TARN_EARG, none,
				    "are none that hold weather: map at "
				    "least one");
	if (!total.unit[0]) {	/* measured as the rain is */
		memcpy(total.unit, map->column[TARN_RAIN].unit,
		       sizeof total.unit);
		total.scale = map->column[TARN_RAIN].scale;
	}
	if (status == TARN_OK)
		status = add_slot(scheme, SLOT_TOTAL, &total, h, "total", err);
	if (status == TARN_OK)
		status = add_total_days(scheme, map, h, err);
	/* the slot must not point into the copy */
	for (size_t i = 0; i < scheme->slots; i++)
		if (scheme->slot[i].id == SLOT_TOTAL) {
			scheme->slot[i].reject = map->total.flag.reject;
			scheme->slot[i].quiet = map->total.flag.quiet;
		}
	return status;
}

static enum tarn_status find_all(struct scheme *scheme,
				 const struct tarn_csv_map *map,
				 const struct header *h,
				 struct tarn_error *err)
{
	const struct {
		const struct tarn_csv_place *place;
		const char *name;
		int *out;
	} all[] = {
		{ &map->date, "date", &scheme->date },
		{ &map->year, "year", &scheme->year },
		{ &map->month, "month", &scheme->month },
		{ &map->day, "day", &scheme->day },
		{ &map->day_of_year, "doy", &scheme->day_of_year },
		{ &map->hour, "hour", &scheme->hour },
		{ &map->station, "station", &scheme->station },
		{ &map->element, "element", &scheme->element },
		{ &map->value, "value", &scheme->value },
		{ &map->name, "name", &scheme->name },
		{ &map->latitude, "latitude", &scheme->latitude },
		{ &map->elevation, "elevation", &scheme->elevation },
	};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
		struct role role = { "", all[i].name };
		enum tarn_status status = tn_place_find(h, all[i].place, role,
					       all[i].out, err);

		if (status != TARN_OK)
			return status;
	}
	if (scheme->element >= 0 && scheme->value < 0)
		return tarn_fail(err, TARN_EARG, "value", "must be given "
				 "beside element");
	return TARN_OK;
}

static enum tarn_status check_dates(const struct scheme *scheme,
				    const struct tarn_csv_map *map,
				    struct tarn_error *err)
{
	if (scheme->date >= 0) {
		if (tn_date_format_ok(map->date_format))
			return TARN_OK;
		return tarn_fail(err, TARN_EARG, "date.format", "\"%s\" must "
				 "hold %%Y, %%m (or %%b) and %%d once each, "
				 "or %%Y and %%j", map->date_format);
	}
	if (scheme->year >= 0 && (scheme->day_of_year >= 0 ||
				  (scheme->month >= 0 && scheme->day >= 0)))
		return TARN_OK;
	return tarn_fail(err, TARN_EARG, "date", "is not known: name its "
			 "column, or those of year, month and day, or of year "
			 "and day of the year");
}

static enum tarn_status check_policies(const struct scheme *scheme,
				       const struct tarn_csv_map *map,
				       struct tarn_error *err)
{
	if (map->hours == 0)
		return TARN_OK;
	if (map->hours < 0 || map->hours > 1440)
		return tarn_fail(err, TARN_EARG, "hours", "must be 1 to 1440 "
				 "values a day, got %d", map->hours);
	if (map->order == TARN_ORDER_SORT ||
	    map->duplicates == TARN_DUPLICATES_LAST || scheme->element >= 0)
		return tarn_fail(err, TARN_EARG, "hours", "cannot go with rows "
				 "to be sorted, with duplicates = \"last\" or "
				 "with the long form");
	return TARN_OK;
}

static void set_missing(struct scheme *scheme, const struct tarn_csv_map *map)
{
	if (tn_number(tn_text(map->trace), &scheme->trace) != NUMBER_OK)
		scheme->trace = TARN_NAN;
	for (size_t i = 0; i < TARN_CSV_TOKENS_MAX; i++) {
		struct text t = tn_text(map->missing[i]);

		if (t.length == 0)
			continue;
		scheme->missing[scheme->tokens].text = t;
		if (tn_number(t, &scheme->missing[scheme->tokens].number) !=
		    NUMBER_OK)
			scheme->missing[scheme->tokens].number = TARN_NAN;
		scheme->tokens++;
	}
	scheme->plain = map->decimal == '.' && scheme->tokens == 0 &&
			isnan(scheme->trace);
}

static void need(struct scheme *scheme, int field)
{
	if (field >= 0 && (size_t)field >= scheme->needed)
		scheme->needed = (size_t)field + 1;
}

/* A file with a header must have all its columns in every row; one without
 * must have those that are read. */
static void set_needed(struct scheme *scheme)
{
	const int fields[] = { scheme->date,	  scheme->year,	 scheme->month,
			       scheme->day,	  scheme->hour,	 scheme->station,
			       scheme->day_of_year, scheme->element,
			       scheme->value };

	scheme->needed = scheme->fields;
	for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
		need(scheme, fields[i]);
	for (size_t i = 0; i < scheme->slots; i++) {
		need(scheme, scheme->slot[i].field);
		need(scheme, scheme->slot[i].flag_field);
	}
}

enum tarn_status tn_scheme_make(struct scheme *scheme,
				const struct tarn_csv_map *map,
				const struct header *h, struct tarn_error *err)
{
	enum tarn_status status;

	memset(scheme, 0, sizeof *scheme);
	scheme->fields = h->count;
	status = find_all(scheme, map, h, err);
	if (status == TARN_OK)
		status = check_dates(scheme, map, err);
	if (status == TARN_OK)
		status = check_policies(scheme, map, err);
	if (status == TARN_OK)
		status = add_slots(scheme, map, h, err);
	set_missing(scheme, map);
	set_needed(scheme);
	return status;
}
