import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { WeatherFileAsked } from '../worker/air/types.ts'
import type { ShopFolder } from '../worker/protocol.ts'
import type { Act } from './acts.ts'

/** A job as it came in. What was done to it since stands in its acts. */
export interface KeptJob {
  readonly id: string
  /** Name of the file it came as, and goes out as. */
  readonly file: string
  readonly base: string
}

/** A job that was taken off the list, whole: *Undo* puts it back. */
export interface RemovedJob {
  readonly id: string
  readonly job: KeptJob
  readonly acts: readonly Act[]
}

interface Shelf extends DBSchema {
  jobs: { key: string; value: KeptJob }
  acts: { key: [string, number]; value: Act }
  removed: { key: string; value: RemovedJob }
  shop: { key: 'own'; value: ShopFolder }
  weather: { key: string; value: WeatherFileAsked }
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
  /** Takes a job off the list with all that was done to it, in one transaction. */
  remove(id: string): Promise<void>
  removed(): Promise<readonly RemovedJob[]>
  /** Puts a removed job back. False: another job has its name meanwhile. */
  restore(id: string): Promise<boolean>
  /** The shop's own folder; undefined: the invented one serves. */
  shop(): Promise<ShopFolder | undefined>
  keepShop(folder: ShopFolder | null): Promise<void>
  /** Hours of a file that stand for the year of a job; undefined: none was given. */
  weather(id: string): Promise<WeatherFileAsked | undefined>
  keepWeather(id: string, file: WeatherFileAsked | null): Promise<void>
}

/** Never refuses: where the browser does, the jobs live in memory. */
export async function openJobs(name = 'plugstead'): Promise<Jobs> {
  try {
    const db = await openDB<Shelf>(name, 3, {
      upgrade(shelf, from) {
        if (from < 1) {
          shelf.createObjectStore('jobs', { keyPath: 'id' })
          shelf.createObjectStore('acts', { keyPath: ['job', 'n'] })
        }
        if (from < 2) {
          shelf.createObjectStore('removed', { keyPath: 'id' })
          shelf.createObjectStore('shop')
        }
        shelf.createObjectStore('weather')
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
    remove: async (id) => {
      const tx = db.transaction(['jobs', 'acts', 'removed'], 'readwrite', { durability: 'strict' })
      const job = await tx.objectStore('jobs').get(id)
      if (job !== undefined) {
        const acts = await tx.objectStore('acts').getAll(ofJob(id))
        await tx.objectStore('removed').put({ id, job, acts })
        await tx.objectStore('acts').delete(ofJob(id))
        await tx.objectStore('jobs').delete(id)
      }
      await tx.done
    },
    removed: () => db.getAll('removed'),
    restore: async (id) => {
      const tx = db.transaction(['jobs', 'acts', 'removed'], 'readwrite', { durability: 'strict' })
      const gone = await tx.objectStore('removed').get(id)
      const free = (await tx.objectStore('jobs').getKey(id)) === undefined
      if (gone !== undefined && free) {
        await tx.objectStore('jobs').put(gone.job)
        for (const act of gone.acts) await tx.objectStore('acts').put(act)
        await tx.objectStore('removed').delete(id)
      }
      await tx.done
      return gone !== undefined && free
    },
    shop: () => db.get('shop', 'own'),
    keepShop: async (folder) => {
      if (folder === null) await db.delete('shop', 'own')
      else await db.put('shop', folder, 'own')
    },
    weather: (id) => db.get('weather', id),
    keepWeather: async (id, file) => {
      if (file === null) await db.delete('weather', id)
      else await db.put('weather', file, id)
    },
  }
}

export function inMemory(): Jobs {
  const jobs = new Map<string, KeptJob>()
  const acts = new Map<string, Act[]>()
  const removed = new Map<string, RemovedJob>()
  const weather = new Map<string, WeatherFileAsked>()
  let own: ShopFolder | undefined
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
    remove: async (id) => {
      const job = jobs.get(id)
      if (job === undefined) return
      removed.set(id, { id, job, acts: of(id) })
      jobs.delete(id)
      acts.delete(id)
    },
    removed: async () => [...removed.values()],
    restore: async (id) => {
      const gone = removed.get(id)
      if (gone === undefined || jobs.has(id)) return false
      jobs.set(id, gone.job)
      acts.set(id, [...gone.acts])
      removed.delete(id)
      return true
    },
    shop: async () => own,
    keepShop: async (folder) => {
      own = folder ?? undefined
    },
    weather: async (id) => weather.get(id),
    keepWeather: async (id, file) => {
      if (file === null) weather.delete(id)
      else weather.set(id, file)
    },
  }
}
