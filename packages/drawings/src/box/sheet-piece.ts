import { Fault } from '@plugstead/engine/kernel'
import type { FramePiece } from '@plugstead/engine/skin'

export interface SheetPiece {
  readonly thicknessMm: number
  readonly wideMm: number
  readonly highMm: number
}

/** Size of a piece cut from sheet, `sheet 3 mm x 141 mm` by its length. @throws Fault `drawings/no-sheet` for a tube */
export function sheetPiece(piece: FramePiece): SheetPiece {
  const [, thickness, high] = /^sheet (\d+(?:\.\d+)?) mm x (\d+(?:\.\d+)?) mm$/.exec(piece.section) ?? []
  if (thickness === undefined || high === undefined) throw new Fault('drawings/no-sheet', piece)
  return { thicknessMm: Number(thickness), wideMm: piece.lengthMm, highMm: Number(high) }
}

export const pieceOf = (pieces: readonly FramePiece[], opening: string, part: FramePiece['part']): FramePiece | undefined =>
  pieces.find((p) => p.opening === opening && p.part === part)

/** “2 jambs of tube 50 x 50 x 3, 2330.5 long”. */
export const pieceWords = ({ part, section, lengthMm, count }: FramePiece): string =>
  `${count} ${part}${count === 1 ? '' : 's'}: ${section}, ${lengthMm} long`
