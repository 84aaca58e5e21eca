#pragma once

namespace stillheap::study {

/// Which of how many programs that a launcher started side by side this one is.
struct Rank {
  int number = 0;
  int count = 1;
  bool launched = false;  ///< by mpirun, srun or the like
};

/// From what launchers tell those they start: OMPI_COMM_WORLD_RANK and _SIZE (Open MPI), PMI_RANK and _SIZE (MPICH and
/// its kin), SLURM_PROCID and SLURM_STEP_NUM_TASKS (srun; not SLURM_NTASKS, which a batch script has as well that
/// starts one program for the whole node). No launcher, or nonsense: the only one. All but the first from memory.
[[nodiscard]] Rank rank_from_environment();

}  // namespace stillheap::study
