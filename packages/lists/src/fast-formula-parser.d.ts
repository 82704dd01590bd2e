declare module 'fast-formula-parser' {
  interface At {
    readonly sheet: string
    readonly row: number
    readonly col: number
  }
  interface Range {
    readonly sheet: string
    readonly from: { readonly row: number; readonly col: number }
    readonly to: { readonly row: number; readonly col: number }
  }
  export default class FormulaParser {
    constructor(of: { readonly onCell: (at: At) => unknown; readonly onRange: (range: Range) => unknown })
    parse(formula: string, at: At): unknown
  }
}
