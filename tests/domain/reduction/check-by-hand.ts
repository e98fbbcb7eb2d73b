/**
 * Does the arithmetic that stands before the "=" of a trail's sentence and gives how far the number after it is off.
 * As a person with a calculator would: from the text alone.
 */
export function handDifference(sentence: string): number {
  const statement = sentence.slice(sentence.lastIndexOf(': ') + 2)
  const [left = '', right = ''] = lastEquation(statement)
  const stated = Number(/^−?[\d.]+(?:e-?\d+)?/.exec(plain(right))?.[0]?.replace('−', '-').replace(/\.$/, ''))
  return Math.abs(calculate(plain(left)) - stated)
}

function lastEquation(statement: string): readonly string[] {
  const at = statement.lastIndexOf(' = ')
  return [statement.slice(0, at).split('; ').at(-1) ?? '', statement.slice(at + 3)]
}

const plain = (text: string): string =>
  text
    .replaceAll(/(\d)[\u202f ](?=\d{3})/g, '$1')
    .replaceAll(
      / × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/g,
      (_, raised: string) =>
        `e${[...raised].map((sign) => '0123456789-'['⁰¹²³⁴⁵⁶⁷⁸⁹⁻'.indexOf(sign)]).join('')}`,
    )
    .trim()

/** Evaluates + − × / ² ³, the sine of degrees, the arc sine of thousandths and brackets; everything else in the text is a fault of the sentence. */
function calculate(text: string): number {
  const script = text
    .replaceAll('−', '-')
    .replaceAll('×', '*')
    .replaceAll(/sin (\(?-?[\d.e-]+\)?)°/g, (_, degrees: string) =>
      String(Math.sin((Number(degrees.replace(/[()]/g, '')) * Math.PI) / 180)),
    )
    .replaceAll(/arcsin\(([-\d.e]+) \/ 1000\)/g, (_, sine: string) =>
      String((Math.asin(Number(sine) / 1000) * 180) / Math.PI),
    )
    .replaceAll('²', '**2')
    .replaceAll('³', '**3')
    .replaceAll(/\b(kN|kPa|mm|m|Hz|mA|V|mV\/V|°C)\b/g, '')
  if (!/^[-+*/().\d\se]+$/.test(script)) throw new Error(`not arithmetic: ${text}`)
  return Number(new Function(`return (${script})`)())
}
