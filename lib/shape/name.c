/* What shapes are called, in jobs, plans and by people. */
#include <stddef.h>

#include "shape/shape.h"

const char *const qci_shape_words[QCI_SHAPES] = {
    [QC_SHAPE_SQUARE] = "square",
    [QC_SHAPE_RECTANGLE] = "rectangle",
    [QC_SHAPE_HALF_SQUARE_TRIANGLE] = "half-square triangle",
    [QC_SHAPE_QUARTER_SQUARE_TRIANGLE] = "quarter-square triangle",
    [QC_SHAPE_DIAMOND] = "diamond",
    [QC_SHAPE_PARALLELOGRAM] = "parallelogram",
    [QC_SHAPE_TRAPEZOID] = "trapezoid",
    [QC_SHAPE_EQUILATERAL_TRIANGLE] = "equilateral triangle",
    [QC_SHAPE_HEXAGON] = "hexagon",
    [QC_SHAPE_KITE] = "kite",
    [QC_SHAPE_POLYGON] = "polygon",
    [QC_SHAPE_STRIP] = "strip",
};

const char *qc_shape_name(qc_shape shape)
{
    return (unsigned)shape < QCI_SHAPES ? qci_shape_words[shape] : NULL;
}
