import { accept, type Outcome } from '../outcome.ts'
import type { CalibrationStep } from '../reduction/chain.ts'
import { givenOrDefault } from '../reduction/parameter.ts'
import { coefficientNames } from '../reduction/step-parameters.ts'
import { steps as stepsByKind } from '../reduction/steps.ts'
import { unfitParameters } from '../reduction/unfit-parameters.ts'
import { refuse } from './edit-links.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { SandboxLink } from './sandbox-recipe.ts'

type Of<K extends SandboxChange['kind']> = Extract<SandboxChange, { kind: K }>

/** A link with another number in one step of its chain. */
export function withCoefficient(link: SandboxLink, change: Of<'coefficient'>): Outcome<SandboxLink> {
  const step = link.steps?.[change.step - 1]
  if (!step || !coefficientNames(step.kind).includes(change.name))
    return refuse(
      'name',
      'no-such-number',
      `The chain of ${link.series} that is in force then has no ${change.name} in step ${change.step}. Choose one of its numbers.`,
      change.name,
    )
  return withStep(link, change.step - 1, { ...step.parameters, [change.name]: change.value }, 'value')
}

/** A link whose chain takes the air off otherwise: with another barometer, share, reference or none. */
export function withBarometer(link: SandboxLink, change: Of<'barometer'>): Outcome<SandboxLink> {
  const { barometer, share, referenceKpa, offsetKpa } = change
  const steps = link.steps ?? []
  const at = steps.findIndex(({ kind }) => kind === 'barometric')
  if (barometer === null) {
    if (at < 0)
      return refuse(
        'barometer',
        'no-barometer',
        `The chain of ${link.series} takes no air pressure off, so there is no barometer to leave out.`,
      )
    return accept({ ...link, steps: steps.filter((_, index) => index !== at) })
  }
  const asked = { ...link, barometerSeries: barometer, barometerOffsetKpa: offsetKpa }
  const old = steps[at]
  if (old) {
    // What stands already is left as it is written: another barometer alone makes no other chain.
    const asKept = (name: string) => givenOrDefault('barometric', old.parameters, name)
    const wanted = { reference: referenceKpa ?? asKept('reference'), efficiency: share }
    const others = Object.entries(wanted).filter(([name, value]) => value !== asKept(name))
    return others.length === 0
      ? accept(asked)
      : withStep(asked, at, { ...old.parameters, ...Object.fromEntries(others) }, 'share')
  }
  if (unitOfChain(steps) !== 'kPa')
    return refuse(
      'barometer',
      'not-a-pressure',
      `${link.series} is no pressure in kPa: air pressure cannot be taken off it.`,
    )
  if (referenceKpa === null)
    return refuse(
      'referenceKpa',
      'reference-missing',
      `The chain of ${link.series} takes no air pressure off yet: give the air pressure at its zero reading, in kPa.`,
    )
  const step: CalibrationStep = {
    kind: 'barometric',
    parameters: { reference: referenceKpa, maximumAgeMinutes: 120, efficiency: share },
  }
  return accept({ ...asked, steps: [...steps, step] })
}

/** A link with another thermal term; 0 leaves it without effect. */
export function withThermal(link: SandboxLink, change: Of<'thermal'>): Outcome<SandboxLink> {
  const steps = link.steps ?? []
  const at = steps.findIndex(({ kind }) => kind === 'thermal')
  const old = steps[at]
  if (link.temperatureSeries === null)
    return refuse('factorPerDegC', 'no-thermistor', `No temperature is recorded beside ${link.series}.`)
  const reference =
    change.referenceDegC ?? (old ? givenOrDefault('thermal', old.parameters, 'reference') : null)
  if (reference === null)
    return refuse(
      'referenceDegC',
      'reference-missing',
      `The chain of ${link.series} has no thermal term yet: give the temperature at its zero reading, in °C.`,
    )
  const parameters = { ...old?.parameters, factor: change.factorPerDegC, reference }
  return old
    ? withStep(link, at, parameters, 'factorPerDegC')
    : accept({ ...link, steps: [...steps, { kind: 'thermal', parameters }] })
}

/** A link to whose values something is added. */
export function withOffset(link: SandboxLink, { amount, perDay, fromEpochMs }: Of<'offset'>): SandboxLink {
  const steps = link.steps ?? []
  return {
    ...link,
    steps: amount === 0 ? steps : [...steps, { kind: 'zero', parameters: { value: -amount } }],
    growing: perDay === 0 ? (link.growing ?? []) : [...(link.growing ?? []), { fromEpochMs, perDay }],
  }
}

function withStep(
  link: SandboxLink,
  at: number,
  parameters: CalibrationStep['parameters'],
  field: string,
): Outcome<SandboxLink> {
  const steps = link.steps ?? []
  const old = steps[at] as CalibrationStep
  const [unfit] = unfitParameters(old.kind, parameters)
  if (unfit)
    return refuse(field, 'unfit-number', unfit.message, String(parameters[unfit.name] ?? ''), unfit.expected)
  return accept({
    ...link,
    steps: steps.map((step, index) => (index === at ? { ...old, parameters } : step)),
  })
}

/** UCUM code of what a chain gives; empty where its steps do not say. */
export const unitOfChain = (steps: readonly CalibrationStep[]): string =>
  steps.reduce((unit, { kind, parameters }) => stepsByKind[kind].unitOut(parameters, unit), '')
