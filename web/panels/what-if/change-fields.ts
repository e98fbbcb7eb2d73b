import type { Series } from '#contract/site-document.ts'
import { coefficientUnit } from '#domain/reduction/coefficient-unit.ts'
import { unitSymbol } from '#domain/units.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import type { SandboxRecipe } from '#domain/what-if/sandbox-recipe.ts'
import { withUnit } from '../../ui/format-value.ts'
import { chainAt, numbersOfChain, rawUnitAt } from './new-change.ts'

/** One thing that a change states: how it is called, what it is and what a new one makes of the change. */
export type ChangeField = { readonly field: string; readonly label: string; readonly hint?: string } & (
  | {
      readonly as: 'number'
      readonly value: number | null
      readonly write: (value: number | null) => SandboxChange
    }
  | {
      readonly as: 'instant'
      readonly value: number | null
      readonly write: (value: number | null) => SandboxChange
    }
  | {
      readonly as: 'choice'
      readonly value: string
      readonly options: readonly (readonly [value: string, label: string])[]
      readonly write: (value: string) => SandboxChange
    }
)

export interface FieldChoices {
  readonly recipe: SandboxRecipe
  /** Series and patterns that may be changed. */
  readonly targets: readonly string[]
  /** Series and patterns whose channels may be read instead. */
  readonly partners: readonly string[]
  readonly barometers: readonly Series[]
  /** UCUM code of the series of the change; empty where not known. */
  readonly unit: string
}

/** The fields of a change, those of its own kind first, then of what series and from when. */
export function fieldsOfChange(change: SandboxChange, choices: FieldChoices): readonly ChangeField[] {
  const named = (name: string, unit = choices.unit) =>
    unit === '' ? name : `${name}, ${withUnit('', unit).trim()}`
  return [...ownFields(change, choices, named), ...datedFields(change, choices)]
}

const given = (value: number | null): number => value ?? Number.NaN
const asOptions = (values: readonly string[], now: string): readonly (readonly [string, string])[] =>
  [...new Set([...values, now])]
    .filter((one) => one !== '')
    .map((one) => [one, one.startsWith('*') ? `every point: ${one}` : one])

function datedFields(change: SandboxChange, { targets }: FieldChoices): readonly ChangeField[] {
  return [
    {
      field: 'series',
      label: change.kind === 'clock' ? 'Clock of the logger of' : 'Of',
      as: 'choice',
      value: change.series,
      options: asOptions(targets, change.series),
      write: (series) => ({ ...change, series }),
    },
    {
      field: 'from',
      label: change.kind === 'clock' ? 'From the stamp' : 'From',
      as: 'instant',
      value: change.fromEpochMs,
      write: (value) => ({ ...change, fromEpochMs: given(value) }),
    },
    {
      field: 'until',
      label:
        change.kind === 'clock' ? 'Until the stamp (left empty: for good)' : 'Until (left empty: for good)',
      as: 'instant',
      value: change.untilEpochMs,
      write: (untilEpochMs) => ({ ...change, untilEpochMs }),
    },
  ]
}

function ownFields(
  change: SandboxChange,
  choices: FieldChoices,
  named: (name: string, unit?: string) => string,
): readonly ChangeField[] {
  const number = (
    field: string,
    label: string,
    value: number | null,
    write: (value: number | null) => SandboxChange,
  ) => ({ field, label, as: 'number', value, write }) as const
  switch (change.kind) {
    case 'coefficient': {
      const chain = chainAt(choices.recipe, change.series, change.fromEpochMs)
      const numbers = numbersOfChain(chain)
      const raw = rawUnitAt(choices.recipe, change.series, change.fromEpochMs)
      const unitOf = (step: number, name: string) => coefficientUnit(chain, step - 1, name, raw)
      const unit = unitOf(change.step, change.name)
      return [
        {
          field: 'name',
          label: 'Number',
          as: 'choice',
          value: `${change.step}.${change.name}`,
          options: numbers.map(({ step, kind, name, value }) => [
            `${step}.${name}`,
            `${step}. ${kind}: ${name} = ${value} ${unitOf(step, name) ?? ''}`.trimEnd(),
          ]),
          write: (text) => {
            const found = numbers.find(({ step, name }) => `${step}.${name}` === text)
            return found ? { ...change, step: found.step, name: found.name, value: found.value } : change
          },
        },
        number('value', unit === null ? 'Is' : `Is, ${unit || 'without a unit'}`, change.value, (value) => ({
          ...change,
          value: given(value),
        })),
      ]
    }
    case 'zero':
      return [
        {
          field: 'by',
          label: 'Zero reading',
          as: 'choice',
          value: change.zero.by,
          options: [
            ['reading', 'the reading at an instant'],
            ['mean', 'the mean over a stretch'],
            ['raw', 'a raw number'],
          ],
          write: (by) => ({ ...change, zero: zeroBy(by, change) }),
        },
        ...zeroFields(change, choices.recipe),
        number('reads', named('It is to read there'), change.reads, (value) => ({
          ...change,
          reads: given(value),
        })),
      ]
    case 'barometer':
      return [
        {
          field: 'barometer',
          label: 'Barometer',
          as: 'choice',
          value: change.barometer ?? '',
          options: [
            ['', 'none: leave the air term out'],
            ...asOptions(
              choices.barometers.map(({ id }) => id),
              change.barometer ?? '',
            ),
          ],
          write: (id) => ({ ...change, barometer: id === '' ? null : id }),
        },
        number('share', 'Share of the air that it feels', change.share, (value) => ({
          ...change,
          share: given(value),
        })),
        number('referenceKpa', 'Air at the zero reading, kPa', change.referenceKpa, (referenceKpa) => ({
          ...change,
          referenceKpa,
        })),
        number('offsetKpa', 'The barometer reads too little by, kPa', change.offsetKpa, (value) => ({
          ...change,
          offsetKpa: given(value),
        })),
      ]
    case 'thermal':
      return [
        number('factorPerDegC', `${named('Thermal term')} per °C`, change.factorPerDegC, (value) => ({
          ...change,
          factorPerDegC: given(value),
        })),
        number(
          'referenceDegC',
          'Temperature at the zero reading, °C',
          change.referenceDegC,
          (referenceDegC) => ({ ...change, referenceDegC }),
        ),
      ]
    case 'wiring':
      return [
        {
          field: 'readsAs',
          label: 'Reads the channel of',
          as: 'choice',
          value: change.readsAs,
          options: [
            ['', 'choose …'],
            ...asOptions(
              choices.partners.filter((one) => one !== change.series),
              change.readsAs,
            ),
          ],
          write: (readsAs) => ({ ...change, readsAs }),
        },
        {
          field: 'exchanged',
          label: 'And that other',
          as: 'choice',
          value: change.exchanged ? 'exchanged' : 'moved',
          options: [
            ['exchanged', 'reads the channel of this one'],
            ['moved', 'keeps its own'],
          ],
          write: (text) => ({ ...change, exchanged: text === 'exchanged' }),
        },
      ]
    case 'clock':
      return [
        number('offsetSeconds', 'Added to its stamps, s', change.offsetSeconds, (value) => ({
          ...change,
          offsetSeconds: given(value),
        })),
        number('driftSecondsPerDay', 'And a day, s', change.driftSecondsPerDay, (value) => ({
          ...change,
          driftSecondsPerDay: given(value),
        })),
      ]
    case 'offset':
      return [
        number('amount', named('Added'), change.amount, (value) => ({ ...change, amount: given(value) })),
        number('perDay', `${named('And')} a day`, change.perDay, (value) => ({
          ...change,
          perDay: given(value),
        })),
      ]
  }
}

type ZeroChange = Extract<SandboxChange, { kind: 'zero' }>

/** `Raw reading, Hz²`: in the unit that the logger gives for the series then. */
function rawLabel({ series, fromEpochMs }: ZeroChange, recipe: SandboxRecipe): string {
  const unit = rawUnitAt(recipe, series, fromEpochMs)
  return `Raw reading, ${unit === null ? 'as its logger gives it' : unitSymbol(unit)}`
}

function zeroFields(change: ZeroChange, recipe: SandboxRecipe): readonly ChangeField[] {
  const { zero } = change
  const instant = (field: string, label: string, value: number, put: (value: number) => ZeroChange['zero']) =>
    ({
      field,
      label,
      as: 'instant',
      value,
      write: (at: number | null) => ({ ...change, zero: put(given(at)) }),
    }) as const
  if (zero.by === 'raw')
    return [
      {
        field: 'raw',
        label: rawLabel(change, recipe),
        as: 'number',
        value: zero.raw,
        write: (value) => ({ ...change, zero: { by: 'raw', raw: given(value) } }),
      },
    ]
  if (zero.by === 'reading')
    return [instant('zeroAt', 'Taken at', zero.atEpochMs, (atEpochMs) => ({ by: 'reading', atEpochMs }))]
  return [
    instant('zeroFrom', 'Readings from', zero.fromEpochMs, (fromEpochMs) => ({ ...zero, fromEpochMs })),
    instant('zeroUntil', 'Readings until', zero.untilEpochMs, (untilEpochMs) => ({ ...zero, untilEpochMs })),
  ]
}

function zeroBy(by: string, { zero, fromEpochMs }: ZeroChange): ZeroChange['zero'] {
  const at = zero.by === 'reading' ? zero.atEpochMs : zero.by === 'mean' ? zero.fromEpochMs : fromEpochMs
  if (by === 'raw') return { by, raw: Number.NaN }
  return by === 'mean'
    ? { by, fromEpochMs: at, untilEpochMs: at + 7 * 86_400_000 }
    : { by: 'reading', atEpochMs: at }
}
