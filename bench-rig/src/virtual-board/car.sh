# Plays the car and looks at what the rig makes of it. Speaks to car.c by orders, and sees the rig by its lines, by its
# status line, and by its exit status, as a person at the board would.
chip=$(echo /sys/devices/platform/gpio-sim.0/gpiochip*)
bus=/sys/bus/i2c/devices/i2c-1
main_coil=17 permission=22 reduced=23 lamp=24 heartbeat=18 standby_coil=27
held=0
failed=0

order() { echo "$*" > /tmp/orders; }
level() { cat $chip/sim_gpio$1/value; }
now() { cut -d' ' -f1 /proc/uptime; }

# The rig's screen since the last mark, one status a line.
mark() { seen=$(wc -c < /tmp/screen); }
screen() { tail -c +$((seen + 1)) /tmp/screen | tr '\r' '\n' | sed 's/\x1b\[K//'; }
status() { screen | grep pump | tail -n 1; }

# holds WHAT COMMAND...: one thing that must be so.
holds() {
    what=$1
    shift
    if "$@"; then
        held=$((held + 1))
        echo "[$(now)] held: $what"
    else
        failed=$((failed + 1))
        echo "[$(now)] FAILED: $what"
        echo "    lines: main coil $(level $main_coil), standby coil $(level $standby_coil), permission $(level $permission)"
        screen | tail -n 12 | sed 's/^/    rig: /'
    fi
}

# within SECONDS COMMAND...: becomes so.
within() {
    tries=$(($1 * 10))
    shift
    until "$@"; do
        tries=$((tries - 1))
        [ $tries -gt 0 ] || return 1
        usleep 100000
    done
}

shows() { screen | grep -q "$1"; }
is() { [ "$(level $1)" = $2 ]; }
# A number in the last status line: between TEXT LEAST MOST.
between() { status | sed -n "s/.*$1 *\(-\{0,1\}[0-9.]*\).*/\1/p" | awk -v a=$2 -v b=$3 '{ok = $1 >= a && $1 <= b} END {exit !ok}'; }
beats() {
    first=$(level $heartbeat)
    for i in 1 2 3 4 5 6 7 8 9 10; do
        [ "$(level $heartbeat)" = $first ] || return 0
        usleep 3000
    done
    return 1
}
still() { ! beats; }
gone() { ! kill -0 $1 2>/dev/null; }

start_rig() {
    cat /tmp/screen >> /tmp/screens 2>/dev/null
    : > /tmp/screen
    seen=0
    # As in the service, but: status line as on a terminal, and no second compiler, which costs an emulator too much.
    car rr 20 java $java_options -Dpicocli.ansi=true -jar /linehold.jar rig --io pi --board /board.yaml \
        --watchdog /dev/watchdog >> /tmp/screen 2>&1 &
    rig=$!
}
java_options='-Xms96m -Xmx96m -Xmn24m -XX:+UseSerialGC -XX:MetaspaceSize=64m -XX:-UsePerfData -XX:TieredStopAtLevel=1'

refused() {
    java $java_options -jar /linehold.jar rig --io pi --board /board.yaml > /tmp/second 2>&1
    [ $? = 2 ] && grep -q 'another linehold' /tmp/second
}

echo "[$(now)] the car is there, key on, at standstill in park"
mkfifo /tmp/orders
car $chip $bus /tmp/orders &
car=$!
order key 1
holds 'before the program runs no coil is energised' is $main_coil 0
start_rig
holds 'prime: the pump runs' within 60 shows 'pump prime'
holds 'the relays are tested, pressure holds, prime ends' within 10 shows 'pump electric'
holds 'no code' eval '! shows code'
holds 'drive is granted, on its line' within 3 is $permission 1
holds 'the pump runs at standstill' is $main_coil 0
holds 'the sender is read: 7.0 bar' within 3 between line 6.9 7.1
holds 'the heartbeat beats' beats
holds 'a second program on the same board is refused' refused

echo "[$(now)] in drive, shaft up to 1200 rpm, then 3000 rpm"
mark
order range 3
order rpm 1200
holds 'above the switch-off speed the internal pump carries the line' within 10 shows 'pump internal'
holds 'the coil is energised: the electric pump is off' is $main_coil 1
holds 'pulses become speed: 1200 rpm' within 3 between shaft 1195 1205
holds 'the sender is read: 10.0 bar' between line 9.9 10.1
holds 'no code, no missed edge' eval '! shows "code\|rig:"'
order rpm 3000
holds 'pulses become speed: 3000 rpm' within 5 between shaft 2990 3010

echo "[$(now)] down to 500 rpm"
mark
order rpm 500
holds 'below the switch-on speed the electric pump carries the line' within 6 shows 'pump electric'
holds 'the coil is released: the electric pump runs' is $main_coil 0
holds 'pulses become speed: 500 rpm' within 3 between shaft 495 505
holds 'no code, no missed edge' eval '! shows "code\|rig:"'

echo "[$(now)] the wire of the main relay's readback breaks"
mark
order readback 0
holds 'it is noticed: P1798' within 3 shows 'code P1798'
holds 'the standby relay is energised too' within 1 is $standby_coil 1
holds 'the lamp is lit' is $lamp 1
order readback 1
holds 'the code goes when the wire is whole' within 5 shows 'gone P1798'

echo "[$(now)] back to 1200 rpm, then the I2C bus hangs"
order rpm 1200
holds 'the internal pump carries the line again' within 10 is $main_coil 1
mark
echo stuck > $bus/mode
holds 'the rig tells that the sender cannot be read' within 3 shows 'rig: pressure sender'
holds 'its ticks go on' beats
holds 'the sender counts as lost: P0840' within 3 shows 'code P0840'
echo ok > $bus/mode
holds 'the sender is read again' within 5 shows 'rig, over: pressure sender'
holds 'its code goes' within 10 shows 'gone P0840'

echo "[$(now)] the main relay's contact no longer closes"
mark
order relay 0
order rpm 500
holds 'it is noticed: P2797' within 6 shows 'code P2797'
holds 'the standby relay carries the pump' is $standby_coil 1
order relay 1
order rpm 1200
holds 'the internal pump carries the line again' within 10 is $main_coil 1

echo "[$(now)] the program is killed while the pump is off"
kill -9 $rig
usleep 100000
holds 'the line falls to its pull: coil released, the pump runs' is $main_coil 0
holds 'and drive is not granted' is $permission 0
start_rig
holds 'it starts again, the shaft still turning: P1607' within 60 shows 'code P1607'
holds 'the internal pump carries the line again' within 15 is $main_coil 1
holds 'pulses become speed: 1200 rpm' within 3 between shaft 1195 1205

echo "[$(now)] the program is stopped (kill -STOP) while the pump is off"
kill -STOP $rig
usleep 100000
holds 'the heartbeat stands still: a monostable outside takes the supply off the coils' still
kill $car
echo 'all that the rig has told, without its status:'
cat /tmp/screens /tmp/screen | tr '\r' '\n' | sed 's/\x1b\[K//' | grep -v '  pump \|^$' | sed 's/^/    /'
echo "VIRTUAL BOARD: $held held, $failed failed; now the watchdog resets the board"
sleep 60
echo 'FAILED: the watchdog did not reset the board'
