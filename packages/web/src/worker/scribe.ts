import './no-eval.ts'
import { CALL, checkBytes, editDocument, newJob, readJob } from '@plugstead/engine/job'
import type { Result } from '@plugstead/engine/kernel'
import type { FromWorker, ToWorker } from './protocol.ts'

/** Reads documents that come in and writes changes into them, beside the engine: an act is kept at once, whatever is being planned meanwhile. */
self.addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  const post = (message: FromWorker): void => self.postMessage(message)
  try {
    if (data.call === 'edit') post({ id: data.id, kind: 'answer', answer: editDocument(data.asked.text, data.asked.edits) })
    else if (data.call === 'read') post({ id: data.id, kind: 'answer', answer: textOf(data.asked.file, data.asked.bytes) })
    else if (data.call === 'questions') post({ id: data.id, kind: 'answer', answer: CALL })
    else if (data.call === 'begin') post({ id: data.id, kind: 'answer', answer: newJob(data.asked.answers, data.asked.days) })
  } catch (thrown) {
    post({ id: data.id, kind: 'fault', code: 'web/scribe', said: thrown instanceof Error ? thrown.message : String(thrown) })
  }
})

/** In the words of the terminal, which reads the same bytes. */
function textOf(file: string, bytes: Uint8Array): Result<string> {
  const job = readJob(bytes, { file })
  return job.ok ? checkBytes(bytes) : job
}
