/*
 * The car around the virtual board: its wires, relays, pump, shaft and oil, once a millisecond. A shell would be too
 * uneven for a pickup. No physics: enough for the rig to find the car plausible (7 bar by the electric pump, 10 bar by
 * the internal one from 600 rpm on, both reached within a quarter of a second).
 *
 * Lines and channels are those of the example board file, voltages those behind the dividers that it describes. They
 * are worked out here from the resistors, not from the rig's code.
 *
 *   car <folder of the gpio-sim chip> <folder of the I2C adapter> <fifo with orders>
 *   car rr <priority> <command...>   runs the command in real time, as chrt does, which this small system lacks
 *
 * Orders, one a line:
 *   key 0|1, brake 0|1, range 0..3 (park, reverse, neutral, drive)
 *   rpm <n>          shaft speed, reached by 1000 rpm a second; the pickup gives four pulses a turn
 *   readback 0|1     wire behind the main relay's contact: broken, whole
 *   relay 0|1        main relay: never closes again, whole
 */
#define _GNU_SOURCE
#include <fcntl.h>
#include <sched.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define CAR_PRIORITY 60 /* nothing that the rig does holds up a real car */
#define TICK_NS 1000000LL
#define PULSES_PER_TURN 4
#define RELAY_TICKS 10
#define SWITCH_TICKS 20

enum { KEY = 5, BRAKE = 6, RANGE_PARK = 12, RANGE_REVERSE = 13, PICKUP = 16, MAIN_COIL = 17, RANGE_NEUTRAL = 19,
       RANGE_DRIVE = 26, STANDBY_COIL = 27 };
static const int range_lines[] = { RANGE_PARK, RANGE_REVERSE, RANGE_NEUTRAL, RANGE_DRIVE };

static int key, brake, range, readback = 1, relay = 1;
static double rpm, wanted_rpm;

static const char *lines, *bus;
static int pulls[28], coils[2], microvolts;

static int open_file(const char *path, int flags)
{
	int fd = open(path, flags);

	if (fd < 0) {
		perror(path);
		exit(2);
	}
	return fd;
}

static int open_line(int line, const char *name, int flags)
{
	char path[256];

	snprintf(path, sizeof path, "%s/sim_gpio%d/%s", lines, line, name);
	return open_file(path, flags);
}

static void put(int fd, const char *text)
{
	if (pwrite(fd, text, strlen(text), 0) < 0)
		perror(text);
}

static void pull(int line, int up)
{
	put(pulls[line], up ? "pull-up" : "pull-down");
}

/* A wire with so many volts, seen through its divider. */
static void wire(int converter, int channel, double volts, double upper_kohm, double lower_kohm)
{
	static int last[2][4];
	int uv = volts * lower_kohm / (upper_kohm + lower_kohm) * 1e6;
	char text[64];

	if (uv == last[converter - 0x48][channel])
		return;
	last[converter - 0x48][channel] = uv;
	snprintf(text, sizeof text, "0x%x %d %d", converter, channel, uv);
	put(microvolts, text);
}

static int energised(int coil)
{
	char level = '0';

	if (pread(coils[coil], &level, 1, 0) != 1)
		perror("coil");
	return level == '1';
}

static void obey(const char *order)
{
	char word[32];
	double value = 0;

	if (sscanf(order, "%31s %lf", word, &value) < 1)
		return;
	if (!strcmp(word, "key"))
		key = value;
	else if (!strcmp(word, "brake"))
		brake = value;
	else if (!strcmp(word, "range"))
		range = value;
	else if (!strcmp(word, "rpm"))
		wanted_rpm = value;
	else if (!strcmp(word, "readback"))
		readback = value;
	else if (!strcmp(word, "relay"))
		relay = value;
}

static void obey_all(int fifo)
{
	static char text[512];
	static int used;
	int got = read(fifo, text + used, sizeof text - 1 - used);
	char *end;

	if (got > 0)
		used += got;
	text[used] = 0;
	while ((end = strchr(text, '\n'))) {
		*end = 0;
		obey(text);
		used -= end + 1 - text;
		memmove(text, end + 1, used + 1);
	}
}

static void switches(void)
{
	/* opto-couplers pull down; written again and again, since opening a line sets the board's own pull */
	pull(KEY, !key);
	pull(BRAKE, !brake);
	for (int i = 0; i < 4; i++)
		pull(range_lines[i], i != range);
}

static void oil_and_relays(void)
{
	static int main_closed, standby_closed, main_since, standby_since;
	static double bar;
	/* main relay: normally closed contact; standby relay: normally open */
	int main_wanted = relay && !energised(0), standby_wanted = energised(1);
	double amps;
	int fed;
	double by_shaft = 10 * (rpm < 600 ? rpm / 600 : 1), target;

	main_since = main_wanted == main_closed ? 0 : main_since + 1;
	if (main_since > RELAY_TICKS)
		main_closed = main_wanted;
	standby_since = standby_wanted == standby_closed ? 0 : standby_since + 1;
	if (standby_since > RELAY_TICKS)
		standby_closed = standby_wanted;
	fed = main_closed || standby_closed;
	target = fed && by_shaft < 7 ? 7 : by_shaft;
	bar += (target - bar) / 60;
	amps = fed ? 2 + (bar < 8 ? bar : 8) : 0;


	/* both contacts feed one wire, each has a readback of its own */
	wire(0x48, 0, fed && readback ? 12.6 : 0, 47, 10);
	wire(0x48, 1, fed ? 12.6 : 0, 47, 10);
	wire(0x48, 2, 0.5 + 4.0 * bar / 20, 10, 15);
	wire(0x48, 3, 5.0, 10, 15);
	wire(0x49, 0, 13.0, 47, 10);
	wire(0x49, 1, 0.5 + 4.0 * amps / 50, 10, 15);
	wire(0x49, 2, 5.0 * 595 / (1000 + 595), 100, 150); /* the thermistor at 60 °C below 1 kohm */
	wire(0x49, 3, 0.5 + 4.0 * 100 / 400, 10, 15);      /* no torque asked for */
}

static long long now_ns(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return t.tv_sec * 1000000000LL + t.tv_nsec;
}

static void sleep_until(long long ns)
{
	struct timespec t = { ns / 1000000000, ns % 1000000000 };

	clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &t, NULL);
}

static void real_time(int policy, int priority)
{
	struct sched_param p = { .sched_priority = priority };

	if (sched_setscheduler(0, policy, &p))
		perror("sched_setscheduler");
}

int main(int argc, char **argv)
{
	char path[256];
	double edges = 0;
	long long tick;
	int fifo, ticks = 0;

	if (argc > 3 && !strcmp(argv[1], "rr")) {
		real_time(SCHED_RR, atoi(argv[2]));
		execvp(argv[3], argv + 3);
		perror(argv[3]);
		return 2;
	}
	if (argc != 4)
		return 2;
	real_time(SCHED_FIFO, CAR_PRIORITY);
	lines = argv[1];
	bus = argv[2];
	fifo = open_file(argv[3], O_RDWR | O_NONBLOCK);
	snprintf(path, sizeof path, "%s/microvolts", bus);
	microvolts = open_file(path, O_WRONLY);
	coils[0] = open_line(MAIN_COIL, "value", O_RDONLY);
	coils[1] = open_line(STANDBY_COIL, "value", O_RDONLY);
	pulls[KEY] = open_line(KEY, "pull", O_WRONLY);
	pulls[BRAKE] = open_line(BRAKE, "pull", O_WRONLY);
	pulls[PICKUP] = open_line(PICKUP, "pull", O_WRONLY);
	for (int i = 0; i < 4; i++)
		pulls[range_lines[i]] = open_line(range_lines[i], "pull", O_WRONLY);

	for (tick = now_ns();; tick += TICK_NS) {
		/* edges are where the shaft has turned to, not where a speed of before foresaw them */
		double edges_per_ns = rpm * PULSES_PER_TURN * 2 / 60e9, end = edges + edges_per_ns * TICK_NS;

		while ((long)end > (long)edges) {
			sleep_until(tick + (long long)(((long)edges + 1 - (end - edges_per_ns * TICK_NS)) / edges_per_ns));
			edges = (long)edges + 1;
			pull(PICKUP, (long)edges % 2);
		}
		edges = end;
		sleep_until(tick + TICK_NS);
		obey_all(fifo);
		if (++ticks % SWITCH_TICKS == 0)
			switches();
		rpm += wanted_rpm > rpm + 1 ? 1 : wanted_rpm < rpm - 1 ? -1 : wanted_rpm - rpm;
		oil_and_relays();
	}
}
