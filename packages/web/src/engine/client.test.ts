import { expect, test } from 'vitest'
import type { FromWorker, ToWorker } from '../worker/protocol.ts'
import { Engine, EngineFault, Stopped } from './client.ts'

class Bench extends EventTarget {
  readonly told: ToWorker[] = []
  ended = false
  postMessage(message: ToWorker): void {
    this.told.push(message)
  }
  terminate(): void {
    this.ended = true
  }
  say(message: FromWorker): void {
    this.dispatchEvent(new MessageEvent('message', { data: message }))
  }
}

function engineOn(): { readonly engine: Engine; readonly benches: Bench[] } {
  const benches: Bench[] = []
  const engine = new Engine(() => {
    const bench = new Bench()
    benches.push(bench)
    return bench as unknown as Worker
  })
  return { engine, benches }
}

test('answers find the call they belong to, whatever their order', async () => {
  const { engine, benches } = engineOn()
  const first = engine.call('working', { ids: ['a'] })
  const second = engine.call('json', { file: 'f', text: 't' })
  const [bench] = benches
  bench?.say({ id: 2, kind: 'answer', answer: 'second' })
  bench?.say({ id: 1, kind: 'answer', answer: [] })
  expect(await second).toBe('second')
  expect(await first).toEqual([])
  expect(bench?.told.map((m) => m.id)).toEqual([1, 2])
})

test('counted work is told while a call runs', async () => {
  const { engine, benches } = engineOn()
  const seen: number[][] = []
  const open = engine.call('open', { file: 'f', text: 't' }, (begun, known) => seen.push([begun, known]))
  benches[0]?.say({ id: 1, kind: 'work', begunCount: 0, knownCount: 4 })
  benches[0]?.say({ id: 1, kind: 'work', begunCount: 1, knownCount: 4 })
  benches[0]?.say({ id: 1, kind: 'answer', answer: { ok: false, problems: [] } })
  await open
  expect(seen).toEqual([
    [0, 4],
    [1, 4],
  ])
})

test('stopping ends the worker, tells everything that waits, and the next call starts another', async () => {
  const { engine, benches } = engineOn()
  const open = engine.call('open', { file: 'f', text: 't' })
  engine.stop()
  await expect(open).rejects.toBeInstanceOf(Stopped)
  expect(benches[0]?.ended).toBe(true)
  void engine.call('working', { ids: [] })
  expect(benches).toHaveLength(2)
})

test('a mistake of the engine carries its code', async () => {
  const { engine, benches } = engineOn()
  const open = engine.call('open', { file: 'f', text: 't' })
  benches[0]?.say({ id: 1, kind: 'fault', code: 'plan/no-end', said: 'plan/no-end' })
  const fault = await open.catch((thrown: unknown) => thrown)
  expect(fault).toBeInstanceOf(EngineFault)
  expect((fault as EngineFault).code).toBe('plan/no-end')
})
