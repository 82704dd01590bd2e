/** What a box's air rests on that nobody told, or that was told in words nothing here can read. */
export interface AirNote {
  readonly kind: 'assumed' | 'unread' | 'missing'
  /** Path in the job document where telling it would replace it. */
  readonly path: string
  readonly said: string
  /** Where the value that is taken comes from; empty where none is. */
  readonly source: string
  /** What a person writes there; empty where `said` says it. */
  readonly mend: string
}

/** A value, and what must be said of how it was come by. */
export interface Noticed<T> {
  readonly value: T
  readonly notes: readonly AirNote[]
}

export const noticed = <T>(value: T, ...notes: readonly AirNote[]): Noticed<T> => ({ value, notes })
