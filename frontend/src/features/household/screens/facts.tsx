/** Facts by name, one a line. */
export function Facts({ facts }: { facts: readonly (readonly [string, string])[] }) {
  if (!facts.length) return null;
  return (
    <dl class="facts">
      {facts.map(([name, value]) => [<dt key={`${name}-t`}>{name}</dt>, <dd key={`${name}-d`}>{value}</dd>])}
    </dl>
  );
}
