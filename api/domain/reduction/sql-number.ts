/** A number as a DuckDB literal of type DOUBLE with every digit kept. Without an exponent DuckDB would read a DECIMAL. */
export const sqlNumber = (value: number): string => {
  const text = value.toExponential()
  return value < 0 ? `(${text})` : text
}

/** An expression with 0, negatives and infinity made null: fit for a divisor or a logarithm, which would raise an error. */
export const sqlPositive = (expression: string): string =>
  `nullif(nullif(greatest(${expression}, ${sqlNumber(0)}), ${sqlNumber(0)}), 'Infinity'::DOUBLE)`

/** An expression with both infinities and NaN (which DuckDB holds equal to itself) made null: fit for a sine. */
export const sqlFinite = (expression: string): string =>
  `nullif(nullif(nullif(${expression}, 'Infinity'::DOUBLE), '-Infinity'::DOUBLE), 'NaN'::DOUBLE)`

/** A name for an expression that is used several times: the text stays short and it is computed once. */
export const sqlBind = (expression: string, name: string, body: string): string =>
  `(list_transform([${expression}], lambda ${name}: ${body})[1])`
