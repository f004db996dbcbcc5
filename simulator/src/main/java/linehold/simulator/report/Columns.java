package linehold.simulator.report;

/**
 * Many samples reduced to what a drawing of a few hundred columns can show: the extremes of each column, so that a dip
 * of a single sample stays visible.
 *
 * @param x middle of each column
 * @param low lowest value in each column; NaN where it has none
 * @param high highest value in each column; NaN where it has none
 */
record Columns(double[] x, double[] low, double[] high) {

    /** Slots of equal length, first one starting at zero, joined so that at most {@code most} columns remain. */
    static Columns ofSlots(double slot, double[] low, double[] high, int most) {
        int join = Math.max(1, (low.length + most - 1) / most);
        int count = (low.length + join - 1) / join;
        Columns columns = new Columns(new double[count], new double[count], new double[count]);
        for (int i = 0; i < count; i++) {
            int begin = i * join;
            int end = Math.min(low.length, begin + join);
            columns.x[i] = slot * (begin + end) / 2;
            columns.low[i] = extreme(low, begin, end, false);
            columns.high[i] = extreme(high, begin, end, true);
        }
        return columns;
    }

    /** The mean of each column, for shares. */
    static double[] means(double[] values, int most) {
        int join = Math.max(1, (values.length + most - 1) / most);
        double[] means = new double[(values.length + join - 1) / join];
        for (int i = 0; i < means.length; i++) {
            int begin = i * join;
            int end = Math.min(values.length, begin + join);
            double sum = 0;
            for (int k = begin; k < end; k++) {
                sum += values[k];
            }
            means[i] = sum / (end - begin);
        }
        return means;
    }

    /** The lowest or highest finite value in {@code [begin, end)}; NaN if there is none. */
    static double extreme(double[] values, int begin, int end, boolean highest) {
        double found = Double.NaN;
        for (int i = begin; i < end; i++) {
            double value = values[i];
            if (Double.isFinite(value) && !(highest ? value <= found : value >= found)) {
                found = value;
            }
        }
        return found;
    }
}
