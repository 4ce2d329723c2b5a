/* What sentences are made of: lengths, counts, sides, the names of parts. */
#ifndef QCI_ORDER_SAY_H
#define QCI_ORDER_SAY_H

#include "base/text.h"
#include "order/measure.h"
#include "order/words.h"

/* "4 1/2 in" */
void qci_say_length(qci_text *text, qc_length length, const qci_origin *from);
/* As a length can be read off a ruler: "4 1/4 in"; where that is not exact,
 * "about 4 1/4 in". */
void qci_say_about(qci_text *text, qc_length length, const qci_origin *from);
/* "2 1/2 x 4 1/2 in" */
void qci_say_size(qci_text *text, qc_length across, qc_length along,
                  const qci_origin *from);
/* "1 strip", "12 strips" */
void qci_say_count(qci_text *text, int64_t count, const char *noun);
/* "the strip", "the 12 strips" */
void qci_say_the(qci_text *text, int64_t count, const char *noun);
/* "the strip", "each of the 12 strips" */
void qci_say_each(qci_text *text, int64_t count, const char *noun);

/* The side that is worked from, "left" for a right-handed reader, and the other
 * one. Every word for a side comes from here, so that a left-handed plan
 * mirrors all of them. */
const char *qci_near_side(const qci_origin *from);
const char *qci_far_side(const qci_origin *from);
/* The side to which a cut of that lean leans going up. */
const char *qci_lean_side(qc_length lean, const qci_origin *from);

/* "triangle", "piece" */
const char *qci_piece_noun(const qc_plan_piece *piece);

/* "section 3b"; "slice 3b2" */
void qci_say_section(qci_text *text, const qci_origin *from);
void qci_say_slice(qci_text *text, const qci_origin *from);
/* What the step is done to: "bolt", "strip 3", "section 3b", "slice 3b2",
 * "squares for B", "set S1 right", "segments S1 right", "units with B". */
void qci_say_source(qci_text *text, const qc_step *step,
                    const qci_origin *from);
/* The same to begin with: "Section 3b: ". */
void qci_say_head(qci_text *text, const qc_step *step, const qci_origin *from);

/* "108 in all", "108 of 200 so far", "36 now, 144 of 200 so far", "56 now,
 * which makes all 200". */
void qci_say_tally(qci_text *text, const qci_tally *tally);
/* The same of a step's pieces, as a clause; of both hands where paired strips
 * give both: " (12 in all)", ": D right (12 in all) and D left (12 in all)". */
void qci_say_tallies(qci_text *text, const qc_step *step,
                     const qci_origin *from);

/* The step needs the setting that the ruler has. */
bool qci_ruler_is_set(const qc_step *step, const qci_origin *from);
/* "set the ruler to 4 1/2 in"; "keep the ruler at 4 1/2 in". */
void qci_say_setting(qci_text *text, const qc_step *step,
                     const qci_origin *from);

/* What falls out of one cloth: "9 pieces A, 4 1/2 x 2 1/2 in", "7 diamonds D",
 * "3 sections"; with `one_by_name` "a piece A". @return whether it ends with an
 * aside, after which the sentence goes on behind a comma. */
bool qci_say_freed(qci_text *text, const qc_step *step, const qci_origin *from,
                   bool one_by_name);

/* How to lay the ruler for a cut of lean `lean` in a strip of that height, from
 * the edge that the last cut has left: `lower` and `upper` are how far its two
 * ends lie from that edge's. With `squared` that is a strip's squared end. */
typedef struct qci_placing {
    qc_length height, lean;
    qc_length lower, upper;
    bool squared;
} qci_placing;
void qci_say_placing(qci_text *text, const qci_placing *placing,
                     const qci_origin *from);

/* After the ruler's setting: that it is measured square to an edge, and what
 * that makes along the cloth, to check it by. */
void qci_say_square_to(qci_text *text, const char *edge, const char *cloth,
                       qc_length along, const qci_origin *from);
/* After the last of `cuts` parallel slanted cuts. */
void qci_say_true_again(qci_text *text, int64_t cuts);
/* A slanted cut that is not parallel to the one before, up to what falls out of
 * which cloths. */
void qci_say_slanted_cut(qci_text *text, const qc_step *step,
                         const qci_origin *from);
/* A step that repeats another one, likewise. */
void qci_say_like(qci_text *text, const qc_step *step, const qci_origin *from);

/* The cuts of an OUTLINE step, as qci_corner_cuts(). */
size_t qci_outline_cuts(const qc_step *step, const qci_origin *from,
                        qci_corner_cut *out);

/* Sentences of one kind of step each, without the head. */
void qci_say_cut(qci_text *text, const qc_step *step, const qci_origin *from);
void qci_say_slant(qci_text *text, const qc_step *step, const qci_origin *from);
void qci_say_outline(qci_text *text, const qc_step *step,
                     const qci_origin *from);
void qci_say_diagonal(qci_text *text, const qc_step *step,
                      const qci_origin *from);
void qci_say_sew(qci_text *text, const qc_step *step, const qci_origin *from);
void qci_say_crosscut(qci_text *text, const qc_step *step,
                      const qci_origin *from);
void qci_say_halve(qci_text *text, const qc_step *step, const qci_origin *from);
void qci_say_trim_back(qci_text *text, const qc_step *step,
                       const qci_origin *from);

#endif
