import type { WeatherFileAnswer, WeatherFileAsked } from '../worker/air/types.ts'
import type { CallName, Calls, FromWorker, ShopFolder, ToWorker } from '../worker/protocol.ts'

/** The worker met a mistake of ours. Nothing was changed. */
export class EngineFault extends Error {
  readonly code: string

  constructor(code: string, said: string) {
    super(said)
    this.name = 'EngineFault'
    this.code = code
  }
}

/** Somebody stopped the work. */
export class Stopped extends Error {
  override readonly name = 'Stopped'
}

type Watch = (begunCount: number, knownCount: number) => void

interface Waiting {
  readonly resolve: (answer: never) => void
  readonly reject: (reason: Error) => void
  readonly watch: Watch | undefined
}

/**
 * The engine in its worker. Calls are answered in the order in which they were made. A call that runs cannot be interrupted from inside, so
 * stopping ends the worker; the next call starts another, which knows no job until one is opened.
 */
export class Engine {
  readonly #start: () => Worker
  #worker: Worker | null = null
  #next = 1
  readonly #waiting = new Map<number, Waiting>()
  #shop: ShopFolder | null = null
  #weather: WeatherFileAsked | null = null
  #answered: () => void = () => {}
  /** Something was answered. */
  readonly answered = new Promise<void>((resolve) => {
    this.#answered = resolve
  })

  constructor(start: () => Worker = startWorker) {
    this.#start = start
  }

  get busy(): boolean {
    return this.#waiting.size > 0
  }

  call<K extends CallName>(name: K, asked: Calls[K]['asked'], watch?: Watch): Promise<Calls[K]['answer']> {
    const id = this.#next++
    const worker = this.#running()
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve: resolve as Waiting['resolve'], reject, watch })
      worker.postMessage({ id, call: name, asked } as ToWorker)
    })
  }

  /** Works for another shop from now on, in every worker that follows too; null: the invented one. */
  serve(shop: ShopFolder | null): Promise<Calls['shop']['answer']> {
    this.#shop = shop
    return this.call('shop', shop)
  }

  /** Hours of a file stand for the year from now on, in every worker that follows too; null: the made year. One that is refused changes nothing. */
  async give(weather: WeatherFileAsked | null): Promise<WeatherFileAnswer | null> {
    if (weather === null && this.#weather === null) return null
    const answer = await this.call('weatherFile', weather)
    if (answer === null || answer.ok) this.#weather = weather
    return answer
  }

  /** Ends whatever runs. Everything that waits is told so. */
  stop(): void {
    this.#worker?.terminate()
    this.#worker = null
    const all = [...this.#waiting.values()]
    this.#waiting.clear()
    for (const { reject } of all) reject(new Stopped())
  }

  #running(): Worker {
    if (this.#worker !== null) return this.#worker
    const worker = this.#start()
    worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => this.#told(data))
    worker.addEventListener('error', (event) => this.#lost(event.message))
    this.#worker = worker
    if (this.#shop !== null) worker.postMessage({ id: 0, call: 'shop', asked: this.#shop } satisfies ToWorker)
    if (this.#weather !== null) worker.postMessage({ id: 0, call: 'weatherFile', asked: this.#weather } satisfies ToWorker)
    return worker
  }

  #told(message: FromWorker): void {
    const waiting = this.#waiting.get(message.id)
    if (waiting === undefined) return
    if (message.kind === 'work') {
      waiting.watch?.(message.begunCount, message.knownCount)
      return
    }
    this.#waiting.delete(message.id)
    this.#answered()
    if (message.kind === 'answer') waiting.resolve(message.answer as never)
    else waiting.reject(new EngineFault(message.code, message.said))
  }

  #lost(said: string): void {
    const all = [...this.#waiting.values()]
    this.#waiting.clear()
    this.#worker?.terminate()
    this.#worker = null
    for (const { reject } of all) reject(new EngineFault('web/worker', said))
  }
}

/** The worker that only writes changes into documents. */
export const startScribe = (): Worker =>
  new Worker(new URL('../worker/scribe.ts', import.meta.url), { type: 'module', name: 'scribe' })

/** The worker that sets type: some 11 MB, started when a PDF is asked for first. */
export const startTypesetter = (): Worker =>
  new Worker(new URL('../worker/typesetter.ts', import.meta.url), { type: 'module', name: 'typesetter' })

/** The same engine once more: judges a change while the plan before it may still run. */
export const startJudge = (): Worker =>
  new Worker(new URL('../worker/worker.ts', import.meta.url), { type: 'module', name: 'judge' })

/** The same engine once more: does pieces of the table of remedies beside everything else. */
export const startHelper = (): Worker =>
  new Worker(new URL('../worker/worker.ts', import.meta.url), { type: 'module', name: 'helper' })

const startWorker = (): Worker => new Worker(new URL('../worker/worker.ts', import.meta.url), { type: 'module', name: 'engine' })
