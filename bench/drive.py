"""Hands jobs to the drivers, as many processes as there are cores: what is measured
is CPU time, so that they may run beside each other."""
import concurrent.futures
import os
import resource
import subprocess


def one(driver, lines):
    """The lines that one process answers."""
    done = subprocess.run([driver], input="".join(line + "\n" for line in lines),
                          text=True, stdout=subprocess.PIPE, check=True)
    return done.stdout.splitlines()


def all_cores(driver, batch):
    """A line for each job (an object with line(), or a line), in order."""
    lines = [j if isinstance(j, str) else j.line() for j in batch]
    cores = os.cpu_count()
    with concurrent.futures.ThreadPoolExecutor(cores) as pool:
        parts = list(pool.map(lambda i: one(driver, lines[i::cores]), range(cores)))
    return [parts[i % cores][i // cores] for i in range(len(lines))]


def cpu_now():
    """CPU seconds of this process and of its children that have ended: what the drivers
    measure of the library, too."""
    usage = [resource.getrusage(who) for who in (resource.RUSAGE_SELF,
                                                 resource.RUSAGE_CHILDREN)]
    return sum(u.ru_utime + u.ru_stime for u in usage)
