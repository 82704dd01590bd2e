/** What a value of the design file has to be. */
export type Shape =
  | 'text'
  | 'number'
  | 'signed'
  | 'count'
  | 'yes or no'
  | { readonly oneOf: readonly (string | number)[] }
  | { readonly list: Shape; readonly least?: number }
  | { readonly byName: Shape }
  | { readonly orNull: Shape }
  | Fields

export interface Fields {
  readonly fields: Readonly<Record<string, Shape>>
  readonly optional?: Readonly<Record<string, Shape>>
}
