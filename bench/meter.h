/* What the bench puts into the library that it links. */
#ifndef QCB_METER_H
#define QCB_METER_H

/* Most columns that a linear program has had since the last call. */
int qcb_most_columns(void);

#endif
