/** A marking flag standing in mowed strips: drawn, not photographed, like everything in the book. */
export function FieldMark() {
  return (
    <svg class="field-mark" viewBox="0 0 320 96" aria-hidden="true">
      {[0, 1, 2, 3, 4, 5, 6].map((strip) => (
        <path
          key={strip}
          class={strip % 2 ? "strip strip--back" : "strip"}
          d={`M${10 + strip * 50} 92 L${64 + strip * 32} 52`}
        />
      ))}
      <path class="edge" d="M0 92 H320 M52 52 H268" />
      <path class="pole" d="M206 80 V10" />
      <path class="flag" d="M206 10 L250 22 L206 34 Z" />
    </svg>
  );
}
