import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { Act } from './acts.ts'

/** A job as it came in. What was done to it since stands in its acts. */
export interface KeptJob {
  readonly id: string
  /** Name of the file it came as, and goes out as. */
  readonly file: string
  readonly base: string
}

interface Shelf extends DBSchema {
  jobs: { key: string; value: KeptJob }
  acts: { key: [string, number]; value: Act }
}

/** Where jobs are kept. One that is refused keeps nothing: then all of it lives in this tab only, and the page says so. */
export interface Jobs {
  readonly kept: boolean
  all(): Promise<readonly KeptJob[]>
  get(id: string): Promise<KeptJob | undefined>
  put(job: KeptJob): Promise<void>
  acts(id: string, from?: number): Promise<readonly Act[]>
  /** Adds one act behind the last. False: another tab was first, and nothing was added. */
  append(act: Act): Promise<boolean>
}

/** Never refuses: where the browser does, the jobs live in memory. */
export async function openJobs(name = 'plugstead'): Promise<Jobs> {
  try {
    const db = await openDB<Shelf>(name, 1, {
      upgrade(fresh) {
        fresh.createObjectStore('jobs', { keyPath: 'id' })
        fresh.createObjectStore('acts', { keyPath: ['job', 'n'] })
      },
    })
    return inBrowser(db)
  } catch {
    return inMemory()
  }
}

function inBrowser(db: IDBPDatabase<Shelf>): Jobs {
  const ofJob = (id: string, from = 0) => IDBKeyRange.bound([id, from], [id, Number.MAX_SAFE_INTEGER])
  return {
    kept: true,
    all: () => db.getAll('jobs'),
    get: (id) => db.get('jobs', id),
    put: async (job) => {
      const tx = db.transaction('jobs', 'readwrite', { durability: 'strict' })
      await tx.store.put(job)
      await tx.done
    },
    acts: (id, from) => db.getAll('acts', ofJob(id, from)),
    append: async (act) => {
      // Strict: told as kept only when the disk has it.
      const tx = db.transaction('acts', 'readwrite', { durability: 'strict' })
      const last = await tx.store.openKeyCursor(ofJob(act.job), 'prev')
      if ((last?.key[1] ?? 0) !== act.n - 1) {
        await tx.done
        return false
      }
      await tx.store.add(act)
      await tx.done
      return true
    },
  }
}

export function inMemory(): Jobs {
  const jobs = new Map<string, KeptJob>()
  const acts = new Map<string, Act[]>()
  const of = (id: string): Act[] => acts.get(id) ?? []
  return {
    kept: false,
    all: async () => [...jobs.values()],
    get: async (id) => jobs.get(id),
    put: async (job) => void jobs.set(job.id, job),
    acts: async (id, from = 0) => of(id).filter((act) => act.n >= from),
    append: async (act) => {
      if (of(act.job).length !== act.n - 1) return false
      acts.set(act.job, [...of(act.job), act])
      return true
    },
  }
}
