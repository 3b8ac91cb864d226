#!/bin/sh
# The nightly run as an array job, one part of the sites for each task:
#   sbatch --array=1-4 examples/nightly_array.sh sites.csv /srv/trees/reports
#   sbatch --dependency=afterany:JOB --wrap 'budclock digest /srv/trees/reports/* >/srv/trees/digest.txt'
# The scheduler sets SLURM_ARRAY_TASK_ID and SLURM_ARRAY_TASK_COUNT (Slurm's sbatch manual, "job array support").
#SBATCH --job-name=budclock
#SBATCH --cpus-per-task=2
set -eu
part=$SLURM_ARRAY_TASK_ID
status=0
"${BUDCLOCK:-budclock}" nightly --sites "$1" --out "$2/$part" --part "$part/$SLURM_ARRAY_TASK_COUNT" \
  --today "${TODAY:-$(date +%F)}" --jobs 2 || status=$?
[ "$status" -le 1 ]  # 1: some sites have problems, which the digest tells
