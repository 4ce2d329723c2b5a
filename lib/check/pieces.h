/* What falls out of a step against the piece that it is said to be. */
#ifndef QCI_CHECK_PIECES_H
#define QCI_CHECK_PIECES_H

#include "check/result.h"

/* The piece as small as its finished size and the seams allow. */
const qci_piece *qci_pieces_least(const qci_checker *checker, uint32_t piece);

/* 0 when `got` lies between the two; else how much it is more than `most`,
 * which is what the ruler shows. */
qc_length qci_pieces_apart(qc_length got, qc_length least, qc_length most);

/* The step's cloth as a piece, by how it is cut: rectangles; triangles out of
 * squares, or of rectangles; sections between parallel slanted cuts; sections
 * of which every second one is turned; what a piece is trimmed from.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_pieces_rectangle(const qci_checker *checker, uint32_t step);
qc_status qci_pieces_triangles(const qci_checker *checker, uint32_t step);
qc_status qci_pieces_slanted(const qci_checker *checker, uint32_t step);
qc_status qci_pieces_turned(const qci_checker *checker, uint32_t step);
qc_status qci_pieces_trimmed(const qci_checker *checker, uint32_t step);

/* The strips of the sets that a crosscut cuts, as those of its strip set. */
qc_status qci_segments_strips(const qci_checker *checker, uint32_t step);

/* How much the step's cuts are too far apart, as the ruler is set, for pieces
 * that take between `least` and `most` square to them. */
qc_length qci_pieces_apart_by(const qci_checker *checker,
                              const qci_instruction *step, qc_length least,
                              qc_length most);

/* An angle and its supplement lean to different sides. */
static inline int32_t qci_pieces_acute(int32_t angle)
{
    return angle > 90 * QC_DEGREE ? 180 * QC_DEGREE - angle : angle;
}

/* "22.5 degrees" */
void qci_pieces_say_angle(qci_text *words, int32_t angle);
/* "cuts 2 1/2 in apart", along the edge where the step measures so; `spacing`
 * is square to them. */
void qci_pieces_say_apart(qci_text *words, const qci_checker *checker,
                          const qci_instruction *step, qc_length spacing);

typedef struct qci_pair {
    char text[112];
} qci_pair;

/* "3 1/2 x 6 1/2 in" */
qci_pair qci_pieces_pair(const qc_length size[2], qc_units units);
/* "1/4 in too small" */
void qci_pieces_say_by(qci_text *words, qc_length by, const char *small,
                       const char *large, qc_units units);
/* "; finished 3 x 6 in with seams of 1/4 in ", or "; " of a cut size. */
void qci_pieces_say_finished(qci_text *words, const qci_checker *checker,
                             uint32_t piece);
/* ", 1/8 in for trimming back included", or nothing. */
void qci_pieces_say_trim(qci_text *words, const qci_checker *checker,
                         uint32_t piece);

#endif
