/** A law was asked for something outside its domain: a defect in the caller, never clipped. */
export class PhysicsDomainError extends RangeError {
  constructor(law: string, argument: string, got: number, expected: string) {
    super(`${law}: ${argument} is ${got}, expected ${expected}`);
    this.name = "PhysicsDomainError";
  }
}

/**
 * Guards a law's domain.
 *
 * @param law name of the law
 * @param values arguments that must be finite and above 0
 * @throws {PhysicsDomainError} naming the first that is not
 * @source house rule
 */
export function needPositive(law: string, values: Readonly<Record<string, number>>): void {
  for (const name in values) {
    const value = values[name];
    if (!(value > 0 && Number.isFinite(value))) throw new PhysicsDomainError(law, name, value, "a finite number above 0");
  }
}
