import { type DBSchema, openDB } from 'idb'
import type { GlassView, JobAnswer, SheetAsked } from '../worker/protocol.ts'

export interface KeptSheet {
  readonly asked: SheetAsked
  readonly view: GlassView
}

/** What a job looked like when it was answered last. */
export interface KeptDrawing {
  readonly id: string
  readonly answer: JobAnswer
  /** The sheets that were looked at last, newest first. */
  readonly sheets: readonly KeptSheet[]
}

interface Shelf extends DBSchema {
  drawn: { key: string; value: KeptDrawing & { readonly by: string } }
}

/** Drawings to show in quiet ink until the engine has answered. In a store of their own: they may be thrown away at any time, jobs may not. */
export interface Drawings {
  get(id: string): Promise<KeptDrawing | undefined>
  keep(drawing: KeptDrawing): Promise<void>
}

/** What was kept by another build may be of another shape: it is passed over. */
const BUILD = import.meta.url

const shipped = import.meta.glob<Omit<KeptDrawing, 'id'>>('../../shipped/*.json', { import: 'default' })

/** Never refuses: without a store nothing is kept. The examples that come drawn are drawn at the first visit already. */
export function openDrawings(name = 'plugstead-drawn'): Drawings {
  const db = openShelf(name)
  return {
    get: async (id) => {
      const kept = await (await db)?.get('drawn', id).catch(() => undefined)
      if (kept?.by === BUILD) return kept
      const load = shipped[`../../shipped/${id}.json`]
      return load === undefined ? undefined : { id, ...(await load()) }
    },
    keep: async (drawing) => void (await (await db)?.put('drawn', { ...drawing, by: BUILD }).catch(() => undefined)),
  }
}

async function openShelf(name: string) {
  try {
    return await openDB<Shelf>(name, 1, {
      upgrade: (fresh) => void fresh.createObjectStore('drawn', { keyPath: 'id' }),
    })
  } catch {
    return null
  }
}

/** The sheet that shows the same, in a room of whatever size. */
export function sheetOf(sheets: readonly KeptSheet[], asked: SheetAsked): KeptSheet | undefined {
  return sheets.find((one) => subjectOf(one.asked) === subjectOf(asked))
}

export const subjectOf = ({ box, side, phase, units, alone }: SheetAsked): string =>
  JSON.stringify([box, side, phase ?? null, units, alone ?? false])
