package linehold.simulator.run;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Gear;

/** Keeps two seconds around a moment at full rate and ends the run after them. */
public final class CloseUpRecorder implements TickListener {
    private static final double BEFORE_S = 1.2;
    private static final double AFTER_S = 0.8;

    private record Row(
            double timeS,
            double linePa,
            double elementPa,
            double shaft,
            double seen,
            double pump,
            boolean coil,
            boolean contact,
            Gear gear,
            Engagement engagement,
            PumpState state,
            DrivePermission permission) {}

    private final double momentS;
    private final List<Row> rows = new ArrayList<>();

    /** @param momentS the moment of interest, s */
    public CloseUpRecorder(double momentS) {
        this.momentS = momentS;
    }

    @Override
    public boolean tick(Moment moment) {
        if (moment.timeS >= momentS - BEFORE_S) {
            rows.add(new Row(
                    moment.timeS,
                    moment.lowestPressurePa,
                    moment.elementPressurePa,
                    moment.shaftRadPerS,
                    moment.outputs.shaftSpeedRadPerS,
                    moment.pumpRadPerS,
                    moment.outputs.mainRelayCoil,
                    moment.contactClosed,
                    moment.gear,
                    moment.engagement,
                    moment.outputs.state,
                    moment.outputs.permission));
        }
        return moment.timeS < momentS + AFTER_S;
    }

    public CloseUp closeUp() {
        int n = rows.size();
        boolean[] coil = new boolean[n];
        boolean[] contact = new boolean[n];
        for (int i = 0; i < n; i++) {
            coil[i] = rows.get(i).coil;
            contact[i] = rows.get(i).contact;
        }
        return new CloseUp(
                momentS,
                rows.stream().mapToDouble(Row::timeS).toArray(),
                rows.stream().mapToDouble(Row::linePa).toArray(),
                rows.stream().mapToDouble(Row::elementPa).toArray(),
                rows.stream().mapToDouble(Row::shaft).toArray(),
                rows.stream().mapToDouble(Row::seen).toArray(),
                rows.stream().mapToDouble(Row::pump).toArray(),
                coil,
                contact,
                rows.stream().map(Row::gear).toArray(Gear[]::new),
                rows.stream().map(Row::engagement).toArray(Engagement[]::new),
                rows.stream().map(Row::state).toArray(PumpState[]::new),
                rows.stream().map(Row::permission).toArray(DrivePermission[]::new));
    }
}
