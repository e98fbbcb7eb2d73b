import type { InstrumentKind } from '#domain/site/vocabulary.ts'

/** A symbol in a box of 24 by 24: lines are stroked, solids are filled. Each is drawn from the thing itself. */
export interface SymbolPaths {
  readonly lines: string
  readonly solids: string
}

/** Symbols of the kinds of instrument: map, register and legend all draw these. */
export const symbols: Readonly<Record<InstrumentKind, SymbolPaths>> = {
  // The water-table mark of a section drawing.
  piezometer: { lines: 'M6 16h12M9 20h6', solids: 'M4.5 4h15l-7.5 9z' },
  // An open pipe with water standing in it.
  standpipe: { lines: 'M7 2v20h10V2M7 11q2.5-2.5 5 0t5 0M10 16h4', solids: '' },
  // A rod from its head down through three anchors.
  extensometer: {
    lines: 'M12 3v18M6 3h12',
    solids: 'M9 7.5h6v3H9zM9 13h6v3H9zM9 18.5h6v3H9z',
  },
  // A casing bent by the ground, with its joints.
  'in-place-inclinometer': {
    lines: 'M8 2v5l6 6v9',
    solids: 'M5.5 7a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0zM11.5 13a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0z',
  },
  // The surveyor's benchmark arrow below its bar.
  'settlement-point': { lines: 'M4 4h16M12 5v16M12 5L6 16M12 5l6 11', solids: '' },
  // A plate out of level and a plumb line.
  tiltmeter: { lines: 'M4 20L20 15M4 20h9M12 3v8', solids: 'M9.5 11.5h5L12 16z' },
  // A crack between two studs.
  'crack-meter': { lines: 'M13 2l-3 6 5 4-5 5 3 5', solids: 'M2 10h5v4H2zM17 10h5v4h-5z' },
  // A strut pressed between two walls.
  'strut-load': { lines: 'M3 4v16M21 4v16M4 12h5M20 12h-5', solids: 'M8 8l4 4-4 4zM16 8l-4 4 4 4z' },
  // A funnel on its bottle.
  'rain-gauge': { lines: 'M5 3h14l-5 7H10zM9 12v9h6v-9M9 17h6', solids: '' },
  // A dial.
  barometer: {
    lines: 'M3 12a9 9 0 1 0 18 0a9 9 0 1 0-18 0zM12 12l5-4M12 6v1M6 12h1M18 15l-1-0.5',
    solids: '',
  },
  // A thermometer.
  'air-temperature': {
    lines: 'M10 13V5a2 2 0 0 1 4 0v8',
    solids: 'M8 17a4 4 0 1 0 8 0a4 4 0 1 0-8 0zM11 9h2v6h-2z',
  },
  // A staff in the water.
  'tide-gauge': { lines: 'M9 2v14M9 4h6M9 8h4M9 12h6M2 19q2.5-3 5 0t5 0t5 0t5 0', solids: '' },
  // A cell.
  'logger-battery': { lines: 'M7 6h10v15H7zM10 3h4', solids: 'M9 13h6v6H9z' },
  // A probe with its wheels on a cable, between the walls of its casing.
  'traversed-inclinometer': {
    lines: 'M5 2v20M19 2v20M12 2v6',
    solids: 'M10 8h4v10h-4zM6 9h3v3H6zM15 15h3v3h-3z',
  },
  // Beams end to end over their supports.
  'tilt-beam': { lines: 'M2 9l10 3 10-6M2 9v11M12 12v8M22 6v14', solids: 'M10 10h4v4h-4z' },
  // A cell below the reservoir that it is joined to.
  'settlement-cell': { lines: 'M3 3h7v8H3zM6.5 11v4q0 5 6 5h2', solids: 'M4 7h5v3H4zM14 16h8v6h-8z' },
  // A house front whose base sags.
  'structure-line': { lines: 'M4 18V8l8-5 8 5v10M2 18q10 6 20 0', solids: 'M10 9h4v5h-4z' },
}

/** A logger: a box with its aerial. */
export const loggerSymbol: SymbolPaths = { lines: 'M4 12h14v9H4zM15 12V3', solids: 'M7 15h3v3H7z' }

/** A gateway: a mast with stays and its aerial. */
export const gatewaySymbol: SymbolPaths = {
  lines: 'M12 6v16M12 10L5 22M12 10l7 12M7 3q5-3 10 0',
  solids: 'M9.5 6h5v3h-5z',
}
