import { readFileSync } from 'node:fs'
import { readShop, type Shop } from '../assess/index.ts'
import { type Job, readJob } from '../job/index.ts'

const root = new URL('../../../../', import.meta.url)

export const fileText = (path: string): string => readFileSync(new URL(path, root), 'utf8')

export function shopAt(folder: string, change: Readonly<Record<string, (text: string) => string>> = {}): Shop {
  const read = readShop((path) => {
    const text = fileText(`${folder}/${path}`)
    return { ok: true, value: change[path]?.(text) ?? text }
  })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

export function jobAt(path: string): Job {
  const read = readJob(fileText(path))
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

export const YARD = 'examples/shops/four-box-yard-us'
export const callAt = (name: string): Job => jobAt(`${YARD}/calls/${name}.yaml`)
