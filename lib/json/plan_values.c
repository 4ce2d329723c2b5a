/* The values of a plan as JSON. A length appears as a number of the job's
 * units, exact to nine places (that is exact for every multiple of 1/64 in and
 * for all metric lengths, and names the length beyond doubt for all others),
 * and, under the same name with "_text" behind it, as it is read on a ruler. */
#include <stdio.h>

#include "length/units.h"
#include "json/plan_write.h"

#define LENGTH_PLACES 9
#define AREA_PLACES 12 /* a square of 1/64 in has that many */
#define ANGLE_PLACES 6

const char *qci_output_piece_id(const qci_output *out, uint32_t piece)
{
    return qc_plan_piece_at(out->plan, piece)->id;
}

const char *qci_output_fabric_id(const qci_output *out, uint32_t fabric)
{
    return qc_plan_fabric_at(out->plan, fabric)->id;
}

void qci_output_number(qci_output *out, const char *key, qc_length length)
{
    qci_write_ratio(&out->writer, key, length, out->one, LENGTH_PLACES);
}

static void write_length_text(qci_output *out, const char *key,
                              qc_length length)
{
    char text[QCI_LENGTH_TEXT];

    qci_length_format_unit(length, out->units, text, sizeof text);
    qci_write_text(&out->writer, key, text);
}

void qci_output_length(qci_output *out, const char *key, qc_length length)
{
    char text_key[48];

    snprintf(text_key, sizeof text_key, "%s_text", key);
    qci_output_number(out, key, length);
    write_length_text(out, text_key, length);
}

void qci_output_purchase(qci_output *out, const char *key, qc_length length)
{
    char text_key[48], text[QCI_LENGTH_TEXT];

    snprintf(text_key, sizeof text_key, "%s_text", key);
    if (length < 0) {
        qci_write_null(&out->writer, key);
        qci_write_null(&out->writer, text_key);
        return;
    }
    qc_length_format_purchase(length, out->units, text, sizeof text);
    qci_output_number(out, key, length);
    qci_write_text(&out->writer, text_key, text);
}

void qci_output_sizes(qci_output *out, const char *key, const qc_length *sizes,
                      size_t count)
{
    char text_key[48];

    snprintf(text_key, sizeof text_key, "%s_text", key);
    qci_write_open_line(&out->writer, key);
    for (size_t i = 0; i < count; i++)
        qci_output_number(out, NULL, sizes[i]);
    qci_write_close(&out->writer, ']');
    qci_write_open_line(&out->writer, text_key);
    for (size_t i = 0; i < count; i++)
        write_length_text(out, NULL, sizes[i]);
    qci_write_close(&out->writer, ']');
}

void qci_output_area(qci_output *out, const char *key, int64_t area)
{
    qci_write_ratio(&out->writer, key, area, out->one * out->one, AREA_PLACES);
}

void qci_output_angle(qci_output *out, const char *key, int32_t angle)
{
    qci_write_ratio(&out->writer, key, angle, QC_DEGREE, ANGLE_PLACES);
}

void qci_output_hand(qci_output *out, qc_hand hand)
{
    if (hand != QC_HAND_NONE)
        qci_write_text(&out->writer, "hand",
                       hand == QC_HAND_LEFT ? "left" : "right");
}

static void write_turn(qci_output *out, const char *key, qc_turn turn)
{
    if (turn == QC_TURN_QUARTER)
        qci_write_text(&out->writer, key, "quarter");
    else if (turn == QC_TURN_THREE_QUARTERS)
        qci_write_text(&out->writer, key, "three quarters");
    else
        qci_write_bool(&out->writer, key, turn == QC_TURN_HALF);
}

void qci_output_turned(qci_output *out, qc_turn turn, bool alternate)
{
    if (!alternate) {
        write_turn(out, "turned", turn);
        return;
    }
    qci_write_text(&out->writer, "turned", "alternate");
    if (turn != QC_TURN_NONE)
        write_turn(out, "first_turned", turn);
}

void qci_output_lie(qci_output *out, uint32_t piece, uint32_t base,
                    bool mirrored)
{
    if (!qc_plan_piece_at(out->plan, piece)->outline_count)
        return;
    qci_write_integer(&out->writer, "base", base);
    qci_write_bool(&out->writer, "mirrored", mirrored);
}
