/** Reasons in sentences, as the answer gives them; nothing where there are none. */
export function ReasonsList({ because }: { because: readonly string[] }) {
  if (because.length === 0) return null;
  return (
    <ul className="plain-list reasons-list">
      {because.map((reason) => (
        <li key={reason}>{reason}</li>
      ))}
    </ul>
  );
}
