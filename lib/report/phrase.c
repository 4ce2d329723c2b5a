/* Every number of the text plan is written here, in integers: a host's locale
 * cannot turn "47.25" into "47,25". Phrases are small values; the longest is a
 * purchase with its length in brackets, well within the room. */
#include "report/phrase.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/wide.h"
#include "length/units.h"
#include "order/measure.h"

#define MONEY_ONE 10000

qci_phrase qci_phrase_length(const qc_plan *plan, qc_length length)
{
    qci_phrase phrase = {{0}};

    qci_length_format_unit(length, plan->units, phrase.text,
                           sizeof phrase.text);
    return phrase;
}

qci_phrase qci_phrase_about(const qc_plan *plan, qc_length length)
{
    qci_told told = qci_told_as(length, plan->ruler, plan->units);
    char number[QCI_LENGTH_TEXT];
    qci_phrase phrase;

    qci_length_format_unit(told.mark, plan->units, number, sizeof number);
    snprintf(phrase.text, sizeof phrase.text, "%s%s",
             told.about ? "about " : "", number);
    return phrase;
}

qci_phrase qci_phrase_angle(int32_t angle)
{
    qci_phrase phrase;
    int32_t part = angle % QC_DEGREE;
    int places = 6;

    while (part && part % 10 == 0) {
        part /= 10;
        places--;
    }
    if (part)
        snprintf(phrase.text, sizeof phrase.text,
                 "%" PRId32 ".%0*" PRId32 " degrees", angle / QC_DEGREE, places,
                 part);
    else
        snprintf(phrase.text, sizeof phrase.text, "%" PRId32 " degrees",
                 angle / QC_DEGREE);
    return phrase;
}

qci_phrase qci_phrase_size(const qc_plan *plan, const qc_length size[2])
{
    char across[QCI_LENGTH_TEXT], along[QCI_LENGTH_TEXT];
    qci_phrase phrase;

    qc_length_format(size[0], plan->units, across, sizeof across);
    qc_length_format(size[1], plan->units, along, sizeof along);
    snprintf(phrase.text, sizeof phrase.text, "%s x %s", across, along);
    return phrase;
}

qci_phrase qci_phrase_size_unit(const qc_plan *plan, const qc_length size[2])
{
    qci_phrase phrase = qci_phrase_size(plan, size);
    size_t used = strlen(phrase.text);

    snprintf(phrase.text + used, sizeof phrase.text - used, " %s",
             qci_units_name(plan->units));
    return phrase;
}

qci_phrase qci_phrase_buy(const qc_plan *plan, qc_length length)
{
    char buy[QCI_LENGTH_TEXT], exact[QCI_LENGTH_TEXT];
    qci_phrase phrase;

    qc_length_format_purchase(length, plan->units, buy, sizeof buy);
    qci_length_format_unit(length, plan->units, exact, sizeof exact);
    if (strcmp(buy, exact) == 0)
        snprintf(phrase.text, sizeof phrase.text, "%s", buy);
    else
        snprintf(phrase.text, sizeof phrase.text, "%s (%s)", buy, exact);
    return phrase;
}

qci_phrase qci_phrase_blade(const qc_plan *plan, int64_t blade)
{
    bool yards = plan->units == QC_UNITS_IN;
    int64_t tenth = (yards ? QC_YARD : QC_M) / 10;
    int64_t tenths = (blade + tenth - 1) / tenth;
    qci_phrase out;

    snprintf(out.text, sizeof out.text, "%" PRId64 ".%" PRId64 " %s",
             tenths / 10, tenths % 10, yards ? "yd" : "m");
    return out;
}

qci_phrase qci_phrase_money(int64_t amount)
{
    qci_phrase phrase;
    int end =
        snprintf(phrase.text, sizeof phrase.text, "%" PRId64 ".%04" PRId64,
                 amount / MONEY_ONE, amount % MONEY_ONE);

    for (int i = 0; i < 2 && phrase.text[end - 1] == '0'; i++)
        phrase.text[--end] = '\0';
    return phrase;
}

/* Hundredths with no more decimals than are needed. */
static qci_phrase hundredths(int64_t value, const char *unit)
{
    qci_phrase phrase;
    int64_t whole = value / 100, part = value % 100;

    if (part == 0)
        snprintf(phrase.text, sizeof phrase.text, "%" PRId64 " %s", whole,
                 unit);
    else if (part % 10 == 0)
        snprintf(phrase.text, sizeof phrase.text, "%" PRId64 ".%" PRId64 " %s",
                 whole, part / 10, unit);
    else
        snprintf(phrase.text, sizeof phrase.text,
                 "%" PRId64 ".%02" PRId64 " %s", whole, part, unit);
    return phrase;
}

qci_phrase qci_phrase_percent(int64_t value)
{
    return hundredths(value, "%");
}

qci_phrase qci_phrase_area(const qc_plan *plan, int64_t area)
{
    static const char *const units[] = {[QC_UNITS_IN] = "sq in",
                                        [QC_UNITS_CM] = "sq cm",
                                        [QC_UNITS_MM] = "sq mm"};
    qc_length one = qci_units_one(plan->units);
    int64_t square = one * one;
    int64_t rest = area % square;

    return hundredths(area / square * 100 + (rest * 100 + square / 2) / square,
                      units[plan->units]);
}

qci_phrase qci_phrase_count(int64_t count, const char *noun)
{
    qci_phrase phrase;

    snprintf(phrase.text, sizeof phrase.text, "%" PRId64 " %s%s", count, noun,
             count == 1 ? "" : "s");
    return phrase;
}

qci_phrase qci_phrase_goal(const qc_plan *plan, qc_goal goal, int64_t value)
{
    qci_phrase phrase;

    switch (goal) {
    case QC_GOAL_BOUGHT:
        qc_length_format_purchase(value, plan->units, phrase.text,
                                  sizeof phrase.text);
        return phrase;
    case QC_GOAL_USED:
        return qci_phrase_length(plan, value);
    case QC_GOAL_MONEY:
        return qci_phrase_money(value);
    case QC_GOAL_LEFTOVER:
        return qci_phrase_area(plan, value);
    case QC_GOAL_SETUPS:
    case QC_GOAL_CUTS:
        break;
    }
    snprintf(phrase.text, sizeof phrase.text, "%" PRId64, value);
    return phrase;
}

int64_t qci_tenths(int64_t part, int64_t whole, int64_t *rest)
{
    qci_wide product = (qci_wide)part * 1000;

    *rest = (int64_t)(product % whole);
    return (int64_t)(product / whole);
}
