#include "pack/polish.h"

#include "pack/result.h"

qc_status qci_polish(qci_master *master, const qci_demand *demand,
                     qci_solution *best, qci_packing *packing, qc_error *err)
{
    return qci_result_build(demand, master->model, best, packing, err);
}
