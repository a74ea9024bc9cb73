import { useEffect, useState } from 'react';

/** Says what is being waited for, but only when it takes longer than 300 ms. */
export function Waiting({ what }: { what: string }) {
  const [isSlow, setSlow] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setSlow(true), 300);
    return () => clearTimeout(timer);
  }, []);
  return (
    <p className="screen-note" role="status">
      {isSlow && `Fetching ${what} …`}
    </p>
  );
}
