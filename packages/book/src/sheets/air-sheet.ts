import type { Block, Reader, Sheet } from '../content.ts'
import type { BookInput } from '../results.ts'
import type { BuiltBox } from './built.ts'

/** What every sheet of a box's air is laid out by. */
export interface AirAt {
  readonly input: BookInput
  readonly box: BuiltBox
  readonly widthMm: number
  readonly units: NonNullable<BookInput['units']>
}

export const sheet = (
  box: Pick<BuiltBox, 'name'>,
  head: string,
  sub: string,
  blocks: readonly Block[],
  readers: readonly Reader[],
): Sheet => ({ part: 'air', head, sub: `${box.name}: ${sub}`, scale: 'not to scale', key: true, readers, blocks })
