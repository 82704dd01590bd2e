import type { Result } from '@plugstead/engine/kernel'
import { idOf } from '../files.ts'
import type { Bench } from '../store/session.ts'

/** Takes a document in, under a name of its own. One that cannot be read is refused with every problem, and nothing is kept of it. */
export async function takeIn({ scribe, jobs }: Bench, file: string, bytes: Uint8Array): Promise<Result<string>> {
  const read = await scribe.call('read', { file, bytes })
  if (!read.ok) return read
  const taken = new Set((await jobs.all()).map((job) => job.id))
  const wanted = idOf(file)
  let id = wanted
  for (let n = 2; taken.has(id); n++) id = `${wanted}-${n}`
  await jobs.put({ id, file, base: read.value })
  return { ok: true, value: id }
}
