import type { Outcome } from '../answer.ts'
import { Failure } from '../problem.ts'

export async function run(): Promise<Outcome> {
  throw new Failure('not here yet')
}
